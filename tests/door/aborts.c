/* Gives up by itself, after some last words. */
#include <stdio.h>
#include <stdlib.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    fputs("the pen is dry\n", stderr);
    abort();
}

DESCRIBE("aborts", ".txt", export_document)
