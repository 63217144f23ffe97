/* Describes itself well, and has nothing that exports. */
#include "describe.h"

DESCRIBE("no-function", ".txt", NULL)
