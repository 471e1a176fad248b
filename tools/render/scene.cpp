#include "tools/render/scene.h"
