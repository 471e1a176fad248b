// The commands of `evet`, a table of name -> function.
#pragma once
