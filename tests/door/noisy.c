/* Prints to standard output what looks like an answer, and makes a good file. */
#include <stdio.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    fputs("E\4\0\0\0\0\0\0\0\0\0\0\0", stdout);
    puts("noise");
    fflush(stdout);
    return emit(ctx, ".txt", (const uint8_t *)"text", 4);
}

DESCRIBE("noisy", ".txt", export_document)
