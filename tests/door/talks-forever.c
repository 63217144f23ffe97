/* Prints without an end. */
#include <stdio.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    for (volatile int forever = 1; forever;) {
        fputs("one more line about nothing\n", stdout);
        fputs("one more line about nothing\n", stderr);
    }
    return 0;
}

DESCRIBE("talks-forever", ".txt", export_document)
