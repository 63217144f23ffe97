/* Makes a job and a style. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    int32_t answer = emit(ctx, ".ron", (const uint8_t *)"text", 4);
    return answer == 0 ? emit(ctx, ".kdl", (const uint8_t *)"text", 4) : answer;
}

DESCRIBE("writes-inputs", ".kdl", export_document)
