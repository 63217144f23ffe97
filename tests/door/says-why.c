/* Prints the reason on standard error and gives none to the program. */
#include <stdio.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    fputs("the pen drawer is locked\n", stderr);
    return 7;
}

DESCRIBE("says-why", ".txt", export_document)
