#include "models/version.h"
