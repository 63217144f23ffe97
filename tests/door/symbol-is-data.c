/* The symbol is there, and is no function. */
__attribute__((visibility("default"))) extern const char traywright_exporter[64];

const char traywright_exporter[64] = "this is no function";
