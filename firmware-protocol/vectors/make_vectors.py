"""Writes good.txt and bad.txt beside this file: frames of the probe protocol with their fields.

Needs nothing but Python. Shares no code with the C and Java implementations that read the files; the checksum is
taken from Python's own CRC routine, which shifts the other way round, by turning the bits of every byte about.
"""

import binascii
import pathlib
import struct

HERE = pathlib.Path(__file__).parent
TURNED = bytes(int(f"{b:08b}"[::-1], 2) for b in range(256))


def crc(body):
    register = binascii.crc_hqx(body.translate(TURNED), 0xFFFF)
    return int(f"{register:016b}"[::-1], 2) ^ 0xFFFF


assert crc(b"123456789") == 0x906E


def stuff(data):
    """COBS: the pieces between zeros, each behind its length plus one. No piece here reaches 254 bytes."""
    return b"".join(bytes([len(piece) + 1]) + piece for piece in data.split(b"\0"))


def wire(body):
    return stuff(body + struct.pack("<H", crc(body))) + b"\0"


def hexes(data):
    return " ".join(f"{b:02X}" for b in data)


GOOD_HEAD = """\
# Frames of the probe protocol 1.0 as they stand on the wire, with what they say.
# Written by make_vectors.py; protocol.md has the meaning of the fields.
#
#   frame NAME      begins a frame; it ends with its wire line. Names do not repeat.
#   kind KIND       hello, samples, tach, button, status, pong, answer, ping, identify, start, stop, rate or unknown
#   FIELD VALUE     a field by its name in protocol.md; numbers are decimal, except that type is hexadecimal
#   name TEXT       the rest of the line, UTF-8, perhaps empty
#   values N N ...  samples: count x axes values in the order of the wire; tach: ticks
#   extra N         bytes at the end of the body that a receiver of version 1.0 does not know; absent if there are none
#   body HEX ...    type and payload
#   crc HEX         CRC-16/X-25 of the body, as a number
#   wire HEX ...    what is sent, the zero at the end included
"""

good = [GOOD_HEAD]


def frame(name, kind, body, fields=(), extra=0):
    assert 1 <= len(body) <= 250, name
    lines = [f"frame {name}", f"kind {kind}", f"type 0x{body[0]:02X}"]
    lines += [f"{key} {value}".rstrip() for key, value in fields]
    if extra:
        lines.append(f"extra {extra}")
    sent = wire(body)
    assert 5 <= len(sent) <= 254 and sent.count(0) == 1
    lines += [f"body {hexes(body)}", f"crc 0x{crc(body):04X}", f"wire {hexes(sent)}"]
    good.append("\n".join(lines) + "\n")


HELLO = [
    ("major", 1, "B"), ("minor", 0, "B"), ("device", 4711, "I"), ("boot", 17, "H"), ("sensor", 2, "B"),
    ("axes", 1, "B"), ("bits", 16, "B"), ("resolution", 10, "B"), ("fullScale", 490333, "I"),
    ("rateNum", 2000000, "I"), ("rateDen", 250, "I"), ("tickHz", 2000000, "I"), ("bandwidth", 1600, "H"),
    ("features", 7, "H"),
]


def hello_body(name="Bench probe", name_length=None, **other):
    raw = name.encode()
    body = b"\x01"
    for key, value, code in HELLO:
        body += struct.pack("<" + code, other.get(key, value))
    return body + struct.pack("<B", len(raw) if name_length is None else name_length) + raw


def hello(name, text="Bench probe", tail=b"", **other):
    fields = [(key, other.get(key, value)) for key, value, _ in HELLO]
    fields += [("nameLength", len(text.encode())), ("name", text)]
    frame(name, "hello", hello_body(text, **other) + tail, fields, len(tail))


def samples_body(number, tick, form, count, values):
    body = struct.pack("<BIIBB", 2, number, tick, form, count)
    for value in values:
        body += value.to_bytes(3 if form & 4 else 2, "little", signed=True)
    return body


def samples(name, number, tick, form, values, tail=b""):
    count = len(values) // (form & 3)
    fields = [("number", number), ("tick", tick), ("format", form), ("count", count)]
    fields.append(("values", " ".join(map(str, values))))
    frame(name, "samples", samples_body(number, tick, form, count, values) + tail, fields, len(tail))


def tach_body(number, missed, count, ticks):
    return struct.pack("<BHBB", 3, number, missed, count) + b"".join(struct.pack("<I", t) for t in ticks)


def tach(name, number, missed, ticks):
    fields = [("number", number), ("missed", missed), ("count", len(ticks)), ("values", " ".join(map(str, ticks)))]
    frame(name, "tach", tach_body(number, missed, len(ticks), ticks), fields)


def plain(name, kind, code, fields, layout):
    frame(name, kind, struct.pack("<B" + layout, code, *[value for _, value in fields]), fields)


hello("hello")
hello("hello-three-axes-24-bit", "Prüfstand, Sonde Nr. 2", axes=3, bits=24, resolution=20, sensor=1, device=0, boot=0,
      fullScale=1569064, rateNum=3200, rateDen=1, tickHz=1000000, bandwidth=0, features=0)
hello("hello-without-name", "")
hello("hello-longest-name", "0123456789012345678901234567890123456789", device=4294967295, boot=65535, sensor=3,
      axes=2, resolution=16, fullScale=4294967295, rateNum=4294967295, rateDen=4294967295, tickHz=4294967295,
      bandwidth=65535)
hello("hello-higher-minor", minor=9, features=0xFFFF, tail=bytes([1, 0, 2]))
hello("hello-unknown-sensor", sensor=200)

samples("samples-worked-example", 1000, 250000, 0x01, [0, 100, -2])
samples("samples-one", 0, 0, 0x01, [0])
samples("samples-two-axes", 65536, 16777216, 0x02, [1, -1, 256, -256, 32767, -32768])
samples("samples-three-axes", 4294967295, 4294967295, 0x03, [1, 2, 3, -4, -5, -6])
samples("samples-at-limit", 77, 88, 0x81, [32767, 32767, -32768, 12])
samples("samples-24-bit", 5, 6, 0x05, [0, 1, -1, 8388607, -8388608, 65536, -65536])
samples("samples-24-bit-three-axes", 123456789, 3141592653, 0x07,
        [8388607, -8388608, 0, 1, -1, 255, -256, 65535, -65536])
samples("samples-full-16-bit", 119000, 29750000, 0x01, [(i * 577) % 65536 - 32768 for i in range(119)])
samples("samples-full-three-axes", 39000, 1, 0x03, [(i * 1009) % 65536 - 32768 for i in range(117)])
samples("samples-full-24-bit", 79000, 1, 0x05, [(i * 212039) % 16777216 - 8388608 for i in range(79)])
samples("samples-full-24-bit-three-axes", 26000, 1, 0x07, [(i * 215123) % 16777216 - 8388608 for i in range(78)])
samples("samples-all-zero", 0, 0, 0x01, [0] * 119)
samples("samples-no-zero-byte", 0x01020304, 0x05060708, 0x01, [0x0101] * 119)
samples("samples-unknown-format-bits", 10, 20, 0x79, [5, 6])
samples("samples-higher-minor", 10, 20, 0x01, [5, 6], tail=b"\x07")
samples("samples-longest-frame", 0x01020304, 0x05060708, 0x01, [0x1111] * 119, tail=b"\x55")

tach("tach-one", 0, 0, [1234567])
tach("tach-wrap", 65535, 0, [4294900000, 4294967295, 32704, 100000])
tach("tach-missed", 300, 255, [5])
tach("tach-most", 1, 2, [1000000 + 153846 * i for i in range(60)])

plain("button-down", "button", 4, [("tick", 2000000), ("button", 0), ("down", 1), ("presses", 1)], "IBBH")
plain("button-up", "button", 4, [("tick", 2300000), ("button", 0), ("down", 0), ("presses", 1)], "IBBH")
plain("status-not-measured", "status", 5,
      [("tick", 2000000), ("dropped", 0), ("badCommands", 0), ("temperature", -32768), ("supply", 65535)], "IIHhH")
plain("status", "status", 5,
      [("tick", 4000000000), ("dropped", 70000), ("badCommands", 3), ("temperature", -105), ("supply", 4985)], "IIHhH")
plain("pong", "pong", 6, [("id", 3735928559), ("received", 1000000), ("sent", 1000057)], "III")
for result, word in enumerate(["done", "unknown", "cannot", "not-now"]):
    plain(f"answer-{word}", "answer", 7, [("command", 0x45), ("result", result)], "BB")

plain("ping", "ping", 0x41, [("id", 1)], "I")
ends_in_zero = next(i for i in range(1 << 16) if crc(struct.pack("<BI", 0x41, i)) < 0x100)
plain("ping-checksum-ends-in-zero", "ping", 0x41, [("id", ends_in_zero)], "I")
plain("identify", "identify", 0x42, [], "")
plain("start", "start", 0x43, [], "")
plain("stop", "stop", 0x44, [], "")
plain("rate", "rate", 0x45, [("num", 8000), ("den", 1)], "II")

frame("unknown-shortest", "unknown", b"\x3F")
frame("unknown-longest-no-zero", "unknown", bytes([0x30] + [1 + i % 255 for i in range(249)]))
frame("unknown-longest-all-zero", "unknown", bytes([0x30] + [0] * 249))
frame("unknown-zero-and-one", "unknown", bytes([0x30] + [i % 2 for i in range(200)]))

BAD_HEAD = """\
# Wire bytes that a receiver rejects, and why. Written by make_vectors.py.
#
#   bad NAME       begins a case; it ends with its wire line. Names do not repeat.
#   why TEXT       what is wrong, for people
#   reason WORD    the first of these that holds: TOO_LONG, BAD_STUFFING, TOO_SHORT, BAD_CHECKSUM, BAD_FIELDS
#   rejected N     how many bytes are rejected: all of them, the zero at the end included
#   wire HEX ...   the bytes; a receiver is at the start of a frame before them and after them
"""

bad = [BAD_HEAD]


def reject(name, reason, sent, why):
    assert sent[-1] == 0 and sent.count(0) == 1, name
    bad.append(f"bad {name}\nwhy {why}\nreason {reason}\nrejected {len(sent)}\nwire {hexes(sent)}\n")


whole = wire(samples_body(1000, 250000, 1, 3, [0, 100, -2]))
longest = wire(bytes([0x30] + [1 + i % 255 for i in range(249)]))
assert len(longest) == 254

reject("one-byte-too-long", "TOO_LONG", longest[:-1] + b"\x01\0", "254 bytes before the zero byte; 253 are the most")
reject("far-too-long", "TOO_LONG", bytes(1 + i % 255 for i in range(1000)) + b"\0", "1000 bytes before the zero byte")
reject("lost-delimiter", "TOO_LONG", longest[:-1] + whole, "the zero byte between two frames was lost")
reject("cut", "BAD_STUFFING", whole[:7] + b"\0", "the end of the frame was lost: its last stuffing byte points past it")
reject("code-255", "BAD_STUFFING", b"\xFF\x01\x02\x03\0", "a stuffing byte of 255 points past the end of any frame")
reject("code-past-end", "BAD_STUFFING", b"\x02\x42\x05\x01\0", "the second stuffing byte points past the end")
reject("only-a-code", "TOO_SHORT", b"\x01\0", "nothing but a stuffing byte")
reject("no-body", "TOO_SHORT", stuff(struct.pack("<H", crc(b""))) + b"\0",
       "two zero bytes are the right checksum of an empty body, but a body has at least its type")
reject("checksum-only", "TOO_SHORT", b"\x03\x12\x34\0", "two bytes: no room for a type")
flipped = bytearray(whole)
flipped[1] ^= 0x10
reject("flipped-bit", "BAD_CHECKSUM", bytes(flipped), "one bit of the type was turned")
body = samples_body(7, 9, 1, 1, [300])
reject("checksum-not-complemented", "BAD_CHECKSUM", stuff(body + struct.pack("<H", crc(body) ^ 0xFFFF)) + b"\0",
       "the sender forgot to complement the checksum")
reject("checksum-high-byte-first", "BAD_CHECKSUM", stuff(body + struct.pack(">H", crc(body))) + b"\0",
       "the checksum stands with its high byte first")
reject("damaged-longest", "BAD_CHECKSUM", longest[:100] + bytes([longest[100] ^ 0x81]) + longest[101:],
       "the longest frame with two bits turned")


def fields(name, body, why):
    reject(name, "BAD_FIELDS", wire(body), why)


fields("hello-empty", b"\x01", "HELLO without any field")
fields("hello-short", hello_body("")[:-1], "HELLO without its nameLength")
fields("hello-name-cut", hello_body("Bench", name_length=6), "the name is shorter than nameLength")
fields("hello-name-too-long", hello_body("x" * 41), "nameLength is 41; 40 is the most")
for key, values in [("axes", [0, 4]), ("bits", [0, 17, 32]), ("resolution", [0, 25]), ("fullScale", [0]),
                    ("rateNum", [0]), ("rateDen", [0]), ("tickHz", [0])]:
    for value in values:
        fields(f"hello-{key}-{value}", hello_body(**{key: value}), f"HELLO with {key} {value}")
fields("samples-short", samples_body(1, 2, 1, 1, [])[:-1], "SAMPLES without its count")
fields("samples-no-axes", samples_body(1, 2, 0, 1, [1]), "SAMPLES with no axes")
fields("samples-none", samples_body(1, 2, 1, 0, []), "SAMPLES with count 0")
fields("samples-one-missing", samples_body(1, 2, 3, 2, [1, 2, 3, 4, 5]), "one value less than count x axes")
fields("samples-24-bit-cut", samples_body(1, 2, 5, 2, [1, 2])[:-1], "the last 24-bit value lacks a byte")
fields("samples-count-255", samples_body(1, 2, 7, 255, [1, 2, 3]), "count 255 with three axes of 24 bits")
fields("tach-short", tach_body(1, 0, 1, [])[:-1], "TACH without its count")
fields("tach-none", tach_body(1, 0, 0, []), "TACH with count 0")
fields("tach-cut", tach_body(1, 0, 2, [5]), "one tick less than count")
fields("tach-61", tach_body(1, 0, 61, [1 + 16843009 * i for i in range(61)]), "61 edges; 60 are the most")
fields("button-short", struct.pack("<BIBBB", 4, 1, 0, 1, 1), "BUTTON lacks a byte")
fields("status-short", struct.pack("<BIIHhB", 5, 1, 0, 0, 0, 1), "STATUS lacks a byte")
fields("pong-short", struct.pack("<BIIHB", 6, 1, 2, 3, 4), "PONG lacks a byte")
fields("answer-short", struct.pack("<BB", 7, 0x43), "ANSWER without its result")

(HERE / "good.txt").write_text("\n".join(good), encoding="utf-8")
(HERE / "bad.txt").write_text("\n".join(bad), encoding="utf-8")
