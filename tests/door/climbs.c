/* Names a file outside the folder. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    return emit(ctx, "/../climbed.txt", (const uint8_t *)"text", 4);
}

DESCRIBE("climbs", ".txt", export_document)
