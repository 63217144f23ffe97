/* Refuses every document with a reason of two lines. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    say(ctx, "the pen plotter has no pen\n  that is thin enough.\n");
    return 3;
}

DESCRIBE("refuses", ".txt", export_document)
