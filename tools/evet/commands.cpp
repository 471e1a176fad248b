#include "tools/evet/commands.h"
