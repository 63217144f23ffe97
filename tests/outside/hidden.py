"""Prints the characters that draw nothing according to Python's own copy of the Unicode character database.

Usage: hidden.py. Prints a JSON object: the codes of each of the general categories Cc, Cf, Zl and Zp.
"""

import json
import sys
import unicodedata

codes = {category: [] for category in ("Cc", "Cf", "Zl", "Zp")}
for code in range(sys.maxunicode + 1):
    category = unicodedata.category(chr(code))
    if category in codes:
        codes[category].append(code)
print(json.dumps(codes))
