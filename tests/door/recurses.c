/* Calls itself without an end. */
#include "describe.h"

static int32_t (*volatile again)(const uint8_t *, size_t, tw_emit, tw_say, void *);

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    volatile uint8_t room[4096];
    room[0] = 1;
    again = export_document;
    return again(document, length, emit, say, ctx) + room[0];
}

DESCRIBE("recurses", ".txt", export_document)
