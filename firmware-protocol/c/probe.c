#include "probe.h"

/*
 * Eight steps of the shift register at once [RFC1662 has the polynomial]: with the reflected polynomial 0x8408 the
 * quotient of a byte b is b ^ (b << 4), and its product with x^12 + x^5 + 1 falls into these three shifts. A table
 * would cost a small board 512 bytes; probe_test.c holds this to a register that shifts bit by bit.
 */
uint16_t probe_crc(uint16_t crc, uint8_t byte) {
    byte = (uint8_t)(byte ^ (crc & 0xFF));
    byte = (uint8_t)(byte ^ (byte << 4));
    return (uint16_t)((crc >> 8) ^ ((uint16_t)byte << 8) ^ ((uint16_t)byte << 3) ^ (byte >> 4));
}

/* At most 252 bytes are stuffed, so that no distance reaches 255 and the rule for long runs is never needed. */
static void stuff(struct probe_encoder *out, uint8_t byte) {
    if (byte == 0) {
        out->wire[out->code_at] = (uint8_t)(out->used - out->code_at);
        out->code_at = out->used;
    } else {
        out->wire[out->used] = byte;
    }
    out->used++;
}

void probe_begin(struct probe_encoder *out, uint8_t type) {
    out->crc = PROBE_CRC_START;
    out->code_at = 0;
    out->used = 1;
    out->overrun = false;
    probe_put8(out, type);
}

void probe_put8(struct probe_encoder *out, uint8_t value) {
    if (out->used > PROBE_MOST_BODY) {
        out->overrun = true;
        return;
    }
    out->crc = probe_crc(out->crc, value);
    stuff(out, value);
}

void probe_put16(struct probe_encoder *out, uint16_t value) {
    probe_put8(out, (uint8_t)value);
    probe_put8(out, (uint8_t)(value >> 8));
}

void probe_put24(struct probe_encoder *out, uint32_t value) {
    probe_put16(out, (uint16_t)value);
    probe_put8(out, (uint8_t)(value >> 16));
}

void probe_put32(struct probe_encoder *out, uint32_t value) {
    probe_put16(out, (uint16_t)value);
    probe_put16(out, (uint16_t)(value >> 16));
}

uint8_t probe_end(struct probe_encoder *out) {
    uint16_t sum = (uint16_t)~out->crc;
    if (out->overrun) {
        return 0;
    }
    stuff(out, (uint8_t)sum);
    stuff(out, (uint8_t)(sum >> 8));
    out->wire[out->code_at] = (uint8_t)(out->used - out->code_at);
    out->wire[out->used] = 0;
    out->used++;
    return out->used;
}

uint8_t probe_write_hello(struct probe_encoder *out, const struct probe_hello *hello) {
    uint8_t i;
    probe_begin(out, PROBE_HELLO);
    probe_put8(out, hello->major);
    probe_put8(out, hello->minor);
    probe_put32(out, hello->device);
    probe_put16(out, hello->boot);
    probe_put8(out, hello->sensor);
    probe_put8(out, hello->axes);
    probe_put8(out, hello->bits);
    probe_put8(out, hello->resolution);
    probe_put32(out, hello->full_scale);
    probe_put32(out, hello->rate_num);
    probe_put32(out, hello->rate_den);
    probe_put32(out, hello->tick_hz);
    probe_put16(out, hello->bandwidth);
    probe_put16(out, hello->features);
    probe_put8(out, hello->name_length);
    for (i = 0; i < hello->name_length && i < PROBE_MOST_NAME; i++) {
        probe_put8(out, (uint8_t)hello->name[i]);
    }
    return probe_end(out);
}

void probe_begin_samples(struct probe_encoder *out, uint32_t number, uint32_t tick, uint8_t format, uint8_t count) {
    probe_begin(out, PROBE_SAMPLES);
    probe_put32(out, number);
    probe_put32(out, tick);
    probe_put8(out, format);
    probe_put8(out, count);
}

void probe_begin_tach(struct probe_encoder *out, uint16_t number, uint8_t missed, uint8_t count) {
    probe_begin(out, PROBE_TACH);
    probe_put16(out, number);
    probe_put8(out, missed);
    probe_put8(out, count);
}

uint8_t probe_write_button(struct probe_encoder *out, uint32_t tick, uint8_t button, bool down, uint16_t presses) {
    probe_begin(out, PROBE_BUTTON);
    probe_put32(out, tick);
    probe_put8(out, button);
    probe_put8(out, down ? 1 : 0);
    probe_put16(out, presses);
    return probe_end(out);
}

uint8_t probe_write_status(struct probe_encoder *out, uint32_t tick, uint32_t dropped, uint16_t bad_commands,
                           int16_t temperature, uint16_t supply) {
    probe_begin(out, PROBE_STATUS);
    probe_put32(out, tick);
    probe_put32(out, dropped);
    probe_put16(out, bad_commands);
    probe_put16(out, (uint16_t)temperature);
    probe_put16(out, supply);
    return probe_end(out);
}

uint8_t probe_write_pong(struct probe_encoder *out, uint32_t id, uint32_t received, uint32_t sent) {
    probe_begin(out, PROBE_PONG);
    probe_put32(out, id);
    probe_put32(out, received);
    probe_put32(out, sent);
    return probe_end(out);
}

uint8_t probe_write_answer(struct probe_encoder *out, uint8_t command, uint8_t result) {
    probe_begin(out, PROBE_ANSWER);
    probe_put8(out, command);
    probe_put8(out, result);
    return probe_end(out);
}

/* Makes ready for the first byte of a frame; the counters stay. */
static void start_frame(struct probe_decoder *in) {
    in->crc = PROBE_CRC_START;
    in->pending = 0;
    in->distance = 0;
}

void probe_reset(struct probe_decoder *in) {
    start_frame(in);
    in->skipping = false;
    in->length = 0;
    in->last = 0;
    in->framed = 0;
    in->rejected = 0;
}

static enum probe_event reject(struct probe_decoder *in, enum probe_event why, uint8_t bytes) {
    in->last = bytes;
    in->rejected += bytes;
    start_frame(in);
    return why;
}

static enum probe_event end_frame(struct probe_decoder *in) {
    uint8_t bytes = (uint8_t)(in->pending + 1);
    uint16_t crc = in->crc;
    if (in->skipping) {
        in->skipping = false;
        return reject(in, PROBE_TOO_LONG, bytes);
    }
    if (in->pending != 0) {
        if (in->distance != 1) {
            return reject(in, PROBE_BAD_STUFFING, bytes);
        }
        if (in->length < 3) {
            return reject(in, PROBE_TOO_SHORT, bytes);
        }
        if (crc != PROBE_CRC_RESIDUE) {
            return reject(in, PROBE_BAD_CHECKSUM, bytes);
        }
        in->length = (uint8_t)(in->length - 2);
    }
    in->last = bytes;
    in->framed += bytes;
    start_frame(in);
    return bytes == 1 ? PROBE_EMPTY : PROBE_FRAME;
}

enum probe_event probe_take(struct probe_decoder *in, uint8_t byte) {
    uint8_t value = byte;
    if (byte == 0) {
        return end_frame(in);
    }
    in->pending++;
    if (in->pending == PROBE_MOST_WIRE) {
        in->skipping = true;
        return reject(in, PROBE_TOO_LONG, PROBE_MOST_WIRE);
    }
    if (in->skipping) {
        return PROBE_MORE;
    }
    if (in->pending == 1) {
        in->length = 0;
        in->distance = byte;
        return PROBE_MORE;
    }
    in->distance--;
    if (in->distance == 0) {
        in->distance = byte;
        value = 0;
    }
    in->body[in->length] = value;
    in->length++;
    in->crc = probe_crc(in->crc, value);
    return PROBE_MORE;
}

void probe_refuse(struct probe_decoder *in) {
    in->framed -= in->last;
    in->rejected += in->last;
}

uint16_t probe_get16(const uint8_t *at) { return (uint16_t)(at[0] | ((uint16_t)at[1] << 8)); }

uint32_t probe_get32(const uint8_t *at) { return probe_get16(at) | ((uint32_t)probe_get16(at + 2) << 16); }

enum probe_understood probe_read_command(const struct probe_decoder *in, struct probe_command *command) {
    const uint8_t *payload = in->body + 1;
    uint8_t bytes = (uint8_t)(in->length - 1);
    command->type = in->body[0];
    switch (command->type) {
    case PROBE_IDENTIFY:
    case PROBE_START:
    case PROBE_STOP:
        return PROBE_COMMAND;
    case PROBE_PING:
        if (bytes < 4) {
            return PROBE_BAD_COMMAND;
        }
        command->id = probe_get32(payload);
        return PROBE_COMMAND;
    case PROBE_RATE:
        if (bytes < 8) {
            return PROBE_BAD_COMMAND;
        }
        command->rate_num = probe_get32(payload);
        command->rate_den = probe_get32(payload + 4);
        return PROBE_COMMAND;
    default:
        return command->type < PROBE_FIRST_COMMAND ? PROBE_NOT_FOR_PROBES : PROBE_UNKNOWN_COMMAND;
    }
}
