"""Makes a copy of a program with other weights in it, where there is no compiler.

usage: put_weights.py PROGRAM COPY OLD=NEW...   files of weights: what the program was built with, what it gets
       put_weights.py --room FILE...            lengthens networks, for a program that is to take others; build it then
JSON is written short, rounded where it would be too long, and filled up with spaces; a network, whose exporter's version is left out, with an empty comment.
"""

import json
import pathlib
import sys

ROOM = 4096  # bytes: exporters of other versions write the same network a little longer
PACKED_ROOM = 60000  # and other weights pack to another length


def without_version(model):
    """An ONNX file (protocol buffers) without its field 3, the version of the program that wrote it."""
    at = model.index(b"\x12\x07pytorch\x1a") + 9
    return model[:at] + model[at + 2 + model[at + 1]:]


def with_room(packed, length):
    """The same gzip file (as pack_belly.py writes it), `length` bytes long by an extra field (RFC 1952, 2.3.1.1)."""
    if packed[3] & 4:  # it has one already
        packed = packed[:3] + bytes([packed[3] & ~4]) + packed[4:10] + packed[12 + int.from_bytes(packed[10:12], "little"):]
    room = length - len(packed) - 2
    if not 0 <= room < 1 << 16:
        return packed
    return packed[:3] + bytes([packed[3] | 4]) + packed[4:10] + room.to_bytes(2, "little") + bytes(room) + packed[10:]


def commented(model, length):
    """The same model, `length` bytes long by a comment of spaces at its end (field 6); as it is where none fits."""
    room = length - len(model) - 4  # the field's number, and its length in three bytes
    head = bytes([0x32, room & 127 | 128, room >> 7 & 127 | 128, room >> 14 & 127]) if room >= 0 else b""
    return model + head + b" " * room if 0 <= room < 1 << 21 else model


def make_room(names):
    for name in names:
        path = pathlib.Path(name)
        model = path.read_bytes()
        lengthened = with_room(model, len(model) + PACKED_ROOM) if path.suffix == ".gz" else commented(model, len(model) + ROOM)
        path.write_bytes(lengthened)


def rounded(value):
    """Four digits after the point: of a strip's errors, a hundredth of what is left over."""
    if isinstance(value, dict):
        return {key: rounded(one) for key, one in value.items()}
    if isinstance(value, list):
        return [rounded(one) for one in value]
    return round(value, 4) if isinstance(value, float) else value


def fitted(old, new, name):
    """The new weights, as long as the old."""
    if name.suffix == ".json":
        read = json.loads(new)
        for weights in (read, rounded(read)):
            new = json.dumps(weights, separators=(",", ":")).encode()
            if len(new) <= len(old):
                return new.ljust(len(old))
    if name.suffix == ".onnx":
        new = commented(without_version(new), len(old))
    if name.suffix == ".gz":
        new = with_room(new, len(old))
    if len(new) != len(old):
        raise SystemExit(f"put_weights.py: {name}: it has {len(new)} bytes where {len(old)} are; build the program with it instead")
    return new


def main():
    if sys.argv[1:2] == ["--room"]:
        return make_room(sys.argv[2:])
    if len(sys.argv) < 4:
        raise SystemExit(__doc__)
    source, copy = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    program = source.read_bytes()
    for pair in sys.argv[3:]:
        old, new = (pathlib.Path(name) for name in pair.split("="))
        before = old.read_bytes()
        if program.count(before) != 1:
            raise SystemExit(f"put_weights.py: {source}: it holds the bytes of {old} {program.count(before)} times, not once")
        program = program.replace(before, fitted(before, new.read_bytes(), new))
    copy.write_bytes(program)
    copy.chmod(0o755)


if __name__ == "__main__":
    main()
