/* Makes a good file and has something to say about it. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    say(ctx, "the card is thinner than a pen line");
    return emit(ctx, ".txt", (const uint8_t *)"text", 4);
}

DESCRIBE("warns", ".txt", export_document)
