// Memory that runs out where no error can be told: the JSON library's destructor allocates, and what it throws
// there would end the process with an abort and no word.
#pragma once

namespace evet {

// From now on such an end says the sentence of any other failure of memory and has exit code 4. Nothing
// acknowledged is lost by it: a write that was under way is taken back by whoever opens the catalogue next.
void end_plainly_without_memory();

}  // namespace evet
