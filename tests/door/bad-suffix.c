/* Is known for a file that cannot be named. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    return 1;
}

DESCRIBE("bad-suffix", "svg", export_document)
