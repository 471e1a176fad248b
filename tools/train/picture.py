"""Writes an RGB array as PNG, so that the training host needs no picture library."""

import struct
import zlib

import numpy as np


def write_png(path, rgb):
    rgb = np.ascontiguousarray(np.clip(rgb, 0, 255).astype(np.uint8))
    height, width = rgb.shape[:2]
    rows = np.concatenate([np.zeros((height, 1), np.uint8), rgb.reshape(height, -1)], 1)

    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    with open(path, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(rows.tobytes(), 6))
                  + chunk(b"IEND", b""))
