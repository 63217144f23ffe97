/* Reads standard input to its end, which is nothing, and makes a good file. */
#include <stdio.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    int character = getchar();
    UNUSED_ARGUMENTS;
    if (character != EOF) {
        say(ctx, "there was something to hear");
        return 1;
    }
    return emit(ctx, ".txt", (const uint8_t *)"text", 4);
}

DESCRIBE("listens", ".txt", export_document)
