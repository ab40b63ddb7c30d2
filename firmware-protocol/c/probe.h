/*
 * The board's side of the probe protocol (../protocol.md): encoder, decoder, command parser.
 *
 * C99, no heap, no floating point, no library but <stdint.h> and <stdbool.h>. An encoder and a decoder take less
 * than 300 bytes each. No frame is longer than 254 bytes, so that every index is a uint8_t. Nothing here is shared
 * between threads or interrupts: what an interrupt hands over is the caller's care.
 *
 * To send, begin a frame, put its fields, end it, and hand `wire`, `length` bytes, to the line:
 *
 *     probe_begin(&out, PROBE_PONG);
 *     probe_put32(&out, id);
 *     probe_put32(&out, received);
 *     probe_put32(&out, sent);
 *     length = probe_end(&out);
 *
 * To receive, give each byte to probe_take. On PROBE_FRAME, read `body` before the next byte.
 *
 * Style of the C here: names in lower case with the prefix probe_, constants in upper case with PROBE_; structs are
 * named by their tag; fixed-width types for whatever goes over the wire or into RAM; constants are enums, or macros
 * where they do not fit an int of 16 bits; the unit in a name or beside a declaration; comments give reasons; four
 * spaces, 120 columns. It compiles without a warning under -std=c99 -Wall -Wextra -Wpedantic -Wconversion.
 */
#ifndef PROBE_H
#define PROBE_H

#include <stdbool.h>
#include <stdint.h>

enum {
    PROBE_MAJOR = 1,
    PROBE_MINOR = 0,

    PROBE_MOST_WIRE = 254, /* bytes of a frame as sent, its zero byte included */
    PROBE_MOST_BODY = 250, /* bytes of type and payload */
    PROBE_MOST_NAME = 40,  /* bytes */
    PROBE_MOST_EDGES = 60
};

/** Frame types. Those below 0x40 go to the host, the others to the probe. */
enum probe_type {
    PROBE_HELLO = 0x01,
    PROBE_SAMPLES = 0x02,
    PROBE_TACH = 0x03,
    PROBE_BUTTON = 0x04,
    PROBE_STATUS = 0x05,
    PROBE_PONG = 0x06,
    PROBE_ANSWER = 0x07,
    PROBE_FIRST_COMMAND = 0x40,
    PROBE_PING = 0x41,
    PROBE_IDENTIFY = 0x42,
    PROBE_START = 0x43,
    PROBE_STOP = 0x44,
    PROBE_RATE = 0x45
};

/** What an ANSWER says. */
enum probe_result { PROBE_DONE = 0, PROBE_UNKNOWN = 1, PROBE_CANNOT = 2, PROBE_NOT_NOW = 3 };

/** The checksum before its first byte, and what it is after a sound body and its two checksum bytes. */
#define PROBE_CRC_START 0xFFFFu
#define PROBE_CRC_RESIDUE 0xF0B8u

/** Takes one byte into the register of a CRC-16/X-25. The checksum is the complement of the last register. */
uint16_t probe_crc(uint16_t crc, uint8_t byte);

/* Sending. */

/** One frame on its way out. Zero bytes are replaced while it is written, so that it is kept only once. */
struct probe_encoder {
    uint16_t crc;
    uint8_t used;    /* bytes of wire so far */
    uint8_t code_at; /* where the distance to the next zero byte belongs */
    bool overrun;    /* a byte did not fit */
    uint8_t wire[PROBE_MOST_WIRE];
};

void probe_begin(struct probe_encoder *out, uint8_t type);
void probe_put8(struct probe_encoder *out, uint8_t value);
void probe_put16(struct probe_encoder *out, uint16_t value);
/** Puts the low 24 bits of a value. */
void probe_put24(struct probe_encoder *out, uint32_t value);
void probe_put32(struct probe_encoder *out, uint32_t value);

/** Ends the frame. Returns its bytes on the wire, or 0 if its body was longer than 250 bytes. */
uint8_t probe_end(struct probe_encoder *out);

/** What a probe is. */
struct probe_hello {
    uint8_t major;
    uint8_t minor;
    uint32_t device;
    uint16_t boot;
    uint8_t sensor;
    uint8_t axes;
    uint8_t bits;
    uint8_t resolution;
    uint32_t full_scale; /* 0.0001 m/s² for 2^(bits-1) counts */
    uint32_t rate_num;   /* Hz */
    uint32_t rate_den;
    uint32_t tick_hz;
    uint16_t bandwidth; /* Hz */
    uint16_t features;
    uint8_t name_length;
    char name[PROBE_MOST_NAME + 1]; /* ends with a zero byte, which is not sent */
};

enum { PROBE_HAS_TACH = 1, PROBE_HAS_BUTTON = 2, PROBE_FOLLOWS_TICKS = 4 };
enum { PROBE_SENSOR_UNKNOWN = 0, PROBE_DIGITAL_MEMS = 1, PROBE_ANALOG_MEMS = 2, PROBE_PIEZO = 3 };

/** Writes a whole HELLO. */
uint8_t probe_write_hello(struct probe_encoder *out, const struct probe_hello *hello);

/** Bits of a SAMPLES frame's format beside the number of axes. */
enum { PROBE_AXES_MASK = 3, PROBE_WIDE = 4, PROBE_AT_LIMIT = 0x80 };

/** Begins SAMPLES; then put count × axes values with probe_put16 or probe_put24, and end it. */
void probe_begin_samples(struct probe_encoder *out, uint32_t number, uint32_t tick, uint8_t format, uint8_t count);

/** Begins TACH; then put count ticks with probe_put32, and end it. */
void probe_begin_tach(struct probe_encoder *out, uint16_t number, uint8_t missed, uint8_t count);

uint8_t probe_write_button(struct probe_encoder *out, uint32_t tick, uint8_t button, bool down, uint16_t presses);

#define PROBE_NO_TEMPERATURE INT16_MIN
#define PROBE_NO_SUPPLY UINT16_MAX

/** Writes STATUS; temperature in 0.1 °C, supply in mV. */
uint8_t probe_write_status(struct probe_encoder *out, uint32_t tick, uint32_t dropped, uint16_t bad_commands,
                           int16_t temperature, uint16_t supply);

uint8_t probe_write_pong(struct probe_encoder *out, uint32_t id, uint32_t received, uint32_t sent);
uint8_t probe_write_answer(struct probe_encoder *out, uint8_t command, uint8_t result);

/* Receiving. */

/** What a byte did. */
enum probe_event {
    PROBE_MORE,         /* the frame has not ended */
    PROBE_EMPTY,        /* a zero byte after a zero byte: means nothing */
    PROBE_FRAME,        /* a frame has ended, its checksum fits, and it stands in body */
    PROBE_TOO_LONG,     /* 254 bytes without a zero byte; or the rest of what was too long has ended */
    PROBE_BAD_STUFFING, /* a distance points past the end */
    PROBE_TOO_SHORT,    /* no room for type and checksum */
    PROBE_BAD_CHECKSUM
};

/** One frame on its way in. */
struct probe_decoder {
    uint16_t crc;
    uint8_t pending;  /* bytes of wire since the last zero byte, or since they were given up */
    uint8_t distance; /* bytes until the next stuffing byte */
    bool skipping;    /* the frame is too long: nothing of it counts */
    uint8_t length;   /* bytes of body; with checksum while the frame has not ended */
    uint8_t last;     /* bytes of wire that the latest event was about, its zero byte included */
    uint32_t framed;  /* bytes of sound and empty frames, modulo 2^32 */
    uint32_t rejected; /* bytes that were not taken, modulo 2^32; taken in = framed + rejected + pending */
    uint8_t body[PROBE_MOST_BODY + 2]; /* type, payload, and room for the checksum */
};

/** Makes a decoder that has seen nothing yet. */
void probe_reset(struct probe_decoder *in);

/** Takes the next byte. Time: bounded, a few dozen instructions. */
enum probe_event probe_take(struct probe_decoder *in, uint8_t byte);

/** Counts the frame of the latest PROBE_FRAME as rejected: its checksum fits, its fields do not. */
void probe_refuse(struct probe_decoder *in);

/** Reads little-endian numbers of a body. */
uint16_t probe_get16(const uint8_t *at);
uint32_t probe_get32(const uint8_t *at);

/** What the host asks for. */
struct probe_command {
    uint8_t type;
    uint32_t id;       /* PING */
    uint32_t rate_num; /* RATE: Hz */
    uint32_t rate_den;
};

/** How a command frame was understood. */
enum probe_understood {
    PROBE_COMMAND,         /* do it */
    PROBE_UNKNOWN_COMMAND, /* answer PROBE_UNKNOWN */
    PROBE_BAD_COMMAND,     /* fields are missing: count it, do not answer */
    PROBE_NOT_FOR_PROBES   /* a frame of the other direction, as by an echo: ignore it, or two boards answer for ever */
};

/** Reads the frame of the latest PROBE_FRAME as a command. Bytes beyond the known fields are ignored. */
enum probe_understood probe_read_command(const struct probe_decoder *in, struct probe_command *command);

#endif
