/*
 * The plugin interface of traywright for exporters, in C99.
 *
 * An exporter is a shared library called libtraywright_NAME.so (with the platform's prefix and suffix) that turns one
 * document, a finished tray in plain data, into files. It has one symbol, traywright_exporter, declared at the end.
 *
 * Build:  cc -std=c99 -shared -fPIC -o libtraywright_NAME.so NAME.c
 * Try:    traywright exporters --plugins FOLDER
 *         traywright make JOB.kdl --as NAME --plugins FOLDER --into OUT
 *
 * Ownership: memory never changes owner. The side that passes a pointer keeps the memory and lends it for the time
 * stated with the parameter. Neither side frees, keeps or writes to memory that the other side has lent.
 *
 * Process: an exporter runs in its own process, with a limit on time (3 s per document unless the maker allows more),
 * on memory (512 MiB) and on output (64 MiB and 256 files per document), in the "C" locale and in UTC. Its output to
 * stdout and stderr is discarded; only after a crash is its last part shown to the maker. An exporter writes no file
 * itself. It is called from one thread, for many documents one after the other. The same document must give the same
 * bytes each time, so keep nothing from one call to the next, and read no clock.
 */
#ifndef TRAYWRIGHT_H
#define TRAYWRIGHT_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The schema of documents for this header. It changes when a field of the document changes its meaning or is removed.
 * Fields may be added within one schema, so ignore fields that you do not know. */
#define TRAYWRIGHT_SCHEMA 2u

#if defined(_WIN32)
#define TRAYWRIGHT_API __declspec(dllexport)
#elif defined(__GNUC__)
#define TRAYWRIGHT_API __attribute__((visibility("default")))
#else
#define TRAYWRIGHT_API
#endif

/*
 * Takes one file. The program provides this function; call it only during the call of export_document that passed it,
 * and from the thread of that call. All files of a call are written, or none.
 *
 *   ctx     the program's; pass back the one from the call, never look into it.
 *   suffix  yours; lent until this function returns. Ends with a zero byte. The program puts the job's name before
 *           it: ".svg" becomes NAME.svg, "-booklet.pdf" becomes NAME-booklet.pdf. It begins with '.' or '-', holds only
 *           ASCII letters, digits, '.' and '-', with at least one letter or digit, and is at most 40 bytes long. Two
 *           files of one document have different suffixes.
 *   bytes   yours; lent until this function returns. Not null, even if length is 0.
 *   length  the number of bytes.
 *
 * Returns 0 if the file was taken; otherwise return a value other than 0 from export_document.
 */
typedef int32_t (*tw_emit)(void *ctx, const char *suffix, const uint8_t *bytes, size_t length);

/*
 * Takes words for the maker: if export_document then returns a value other than 0, they are the reason; if it returns
 * 0, they are a warning about the files. One plain sentence without a full stop, at most 2000 bytes. The program
 * provides this function; call it only during the call of export_document that passed it, and from its thread.
 *
 *   ctx     as above.
 *   words   yours; lent until this function returns. UTF-8, ends with a zero byte.
 */
typedef void (*tw_say)(void *ctx, const char *words);

/*
 * A library's description of itself. Fields are only ever added at the end, so set struct_size with sizeof.
 */
typedef struct tw_exporter {
    /* TRAYWRIGHT_SCHEMA. Read first. If it differs from the program's schema, the program reads nothing else but
     * struct_size, and refuses the library. */
    uint32_t schema;

    /* sizeof(tw_exporter) when the library is built. */
    uint32_t struct_size;

    /* The NAME in the name of the library's file: ASCII letters, digits, '-' and '_'. Yours; ends with a zero byte;
     * unchanged as long as the library is loaded. */
    const char *name;

    /* The suffix of the exporter's main file, such as ".svg". Yours; ends with a zero byte; unchanged
     * as long as the library is loaded. */
    const char *suffix;

    /*
     * Makes the files of one document.
     *
     *   document  the program's; lent until this function returns. JSON in UTF-8, without a zero byte at its end:
     *             {"schema":2,"document":{...}}. Lengths are millimetres, angles degrees; y is up; every number is
     *             finite; absent values are left out, so null never occurs.
     *             The fields are those of Document in core/document/src, under the same names.
     *   length    the number of bytes.
     *   emit      takes each file.
     *   say       takes words.
     *   ctx       the program's; pass it to emit and say.
     *
     * Returns 0 if every file was emitted, at least one; anything else refuses the document.
     */
    int32_t (*export_document)(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx);
} tw_exporter;

/*
 * The one symbol of a library. Returns its descriptor: yours, unchanged as long as the library is loaded, never null.
 */
TRAYWRIGHT_API const tw_exporter *traywright_exporter(void);

#ifdef __cplusplus
}
#endif

#endif
