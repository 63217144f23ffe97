/* Never comes back. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    for (volatile int forever = 1; forever;) {
    }
    return 0;
}

DESCRIBE("loops", ".txt", export_document)
