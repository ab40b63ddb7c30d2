/*
 * Tests of the reference implementation: the vectors, laws under a fixed seed, and byte accounting.
 * Usage: probe_test VECTORS-FOLDER. Prints the number of checks; exit code 1 if one failed.
 */
#include "probe_read.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_LINE = 8000, MOST_BYTES = 2000 };

static unsigned long checks;
static unsigned long failures;

/* Printing stops after some failures: a broken codec fails millions of times. */
#define CHECK(holds, ...)                                                                                              \
    do {                                                                                                               \
        checks++;                                                                                                      \
        if (!(holds) && failures++ < 20) {                                                                             \
            printf("FAILED line %d: %s: ", __LINE__, #holds);                                                          \
            printf(__VA_ARGS__);                                                                                       \
            printf("\n");                                                                                              \
        }                                                                                                              \
    } while (0)

/* The checksum again, bit by bit by its definition: the outside arithmetic that probe_crc is held to. */
static uint16_t slow_crc(const uint8_t *bytes, size_t count) {
    unsigned reg = 0xFFFF;
    for (size_t i = 0; i < count; i++) {
        for (int bit = 0; bit < 8; bit++) {
            unsigned feedback = (reg ^ (unsigned)(bytes[i] >> bit)) & 1;
            reg = (reg >> 1) ^ (feedback ? 0x8408u : 0);
        }
    }
    return (uint16_t)(reg ^ 0xFFFF);
}

static uint16_t complement(uint16_t crc) { return (uint16_t)(0xFFFFu - crc); }

static uint16_t fast_register(const uint8_t *bytes, size_t count) {
    uint16_t crc = PROBE_CRC_START;
    for (size_t i = 0; i < count; i++) {
        crc = probe_crc(crc, bytes[i]);
    }
    return crc;
}

/* The residue of [RFC1662]; the check value of the nine digits is the one usually given for this checksum. */
static void checksum_matches_published_values(void) {
    uint8_t text[11] = "123456789";
    CHECK(slow_crc(text, 9) == 0x906E, "%04X", slow_crc(text, 9));
    CHECK(complement(fast_register(text, 9)) == 0x906E, "%04X", fast_register(text, 9));
    text[9] = 0x6E;
    text[10] = 0x90;
    CHECK(fast_register(text, 11) == PROBE_CRC_RESIDUE, "%04X", fast_register(text, 11));
    for (unsigned b = 0; b < 256; b++) {
        uint8_t two[2] = {(uint8_t)b, (uint8_t)(b * 31)};
        CHECK(complement(fast_register(two, 2)) == slow_crc(two, 2), "byte %u", b);
    }
}

/* Feeds bytes that hold one zero byte, at the end; returns the last event and adds up what was rejected. */
static enum probe_event feed(struct probe_decoder *in, const uint8_t *bytes, size_t count) {
    enum probe_event event = PROBE_MORE;
    for (size_t i = 0; i < count; i++) {
        event = probe_take(in, bytes[i]);
    }
    if (event == PROBE_FRAME && !probe_fields_fit(in->body, in->length)) {
        probe_refuse(in);
    }
    return event;
}

/* One block of a vector file: KEY VALUE lines up to the wire line. */
struct block {
    char *keys[64];
    char *values[64];
    int count;
};

static bool next_block(FILE *file, struct block *block) {
    static char lines[64][MOST_LINE];
    block->count = 0;
    while (block->count < 64 && fgets(lines[block->count], MOST_LINE, file)) {
        char *line = lines[block->count];
        char *space;
        line[strcspn(line, "\n")] = 0;
        if (line[0] == '#' || line[0] == 0) {
            continue;
        }
        space = strchr(line, ' ');
        block->keys[block->count] = line;
        block->values[block->count] = space ? space + 1 : line + strlen(line);
        if (space) {
            *space = 0;
        }
        block->count++;
        if (strcmp(line, "wire") == 0) {
            return true;
        }
    }
    return false;
}

static const char *text(const struct block *block, const char *key) {
    for (int i = 0; i < block->count; i++) {
        if (strcmp(block->keys[i], key) == 0) {
            return block->values[i];
        }
    }
    return NULL;
}

static long long number(const struct block *block, const char *key) {
    const char *value = text(block, key);
    if (!value) {
        CHECK(value != NULL, "%s has no %s", block->values[0], key);
        return -1;
    }
    return strtoll(value, NULL, 0);
}

static size_t hex(const struct block *block, const char *key, uint8_t *bytes) {
    const char *at = text(block, key);
    size_t count = 0;
    while (at && *at && count < MOST_BYTES) {
        char *end;
        bytes[count++] = (uint8_t)strtoul(at, &end, 16);
        at = end + (*end == ' ');
    }
    return count;
}

/* The i-th of the numbers in a values line. */
static long long listed(const struct block *block, int i) {
    const char *at = text(block, "values");
    char *end = NULL;
    long long value = 0;
    for (int k = 0; k <= i; k++) {
        value = strtoll(at, &end, 10);
        at = end;
    }
    return value;
}

#define SAME(field, key)                                                                                               \
    CHECK((long long)(field) == number(v, key), "%s %s: %lld", v->values[0], key, (long long)(field))

/* Reads the body by its kind, compares every field, and writes the fields again. Returns the new frame's length. */
static uint8_t read_and_write(const struct block *v, const uint8_t *body, uint8_t length, struct probe_encoder *out) {
    const char *kind = text(v, "kind");
    struct probe_hello hello;
    struct probe_samples samples;
    struct probe_tach tach;
    struct probe_button button;
    struct probe_status status;
    struct probe_pong pong;
    struct probe_answer answer;
    if (strcmp(kind, "hello") == 0) {
        CHECK(probe_read_hello(body, length, &hello), "%s", v->values[0]);
        SAME(hello.major, "major");
        SAME(hello.minor, "minor");
        SAME(hello.device, "device");
        SAME(hello.boot, "boot");
        SAME(hello.sensor, "sensor");
        SAME(hello.axes, "axes");
        SAME(hello.bits, "bits");
        SAME(hello.resolution, "resolution");
        SAME(hello.full_scale, "fullScale");
        SAME(hello.rate_num, "rateNum");
        SAME(hello.rate_den, "rateDen");
        SAME(hello.tick_hz, "tickHz");
        SAME(hello.bandwidth, "bandwidth");
        SAME(hello.features, "features");
        SAME(hello.name_length, "nameLength");
        CHECK(strcmp(hello.name, text(v, "name")) == 0, "%s", hello.name);
        return probe_write_hello(out, &hello);
    }
    if (strcmp(kind, "samples") == 0) {
        CHECK(probe_read_samples(body, length, &samples), "%s", v->values[0]);
        SAME(samples.number, "number");
        SAME(samples.tick, "tick");
        SAME(samples.count, "count");
        CHECK((samples.axes | (samples.wide ? PROBE_WIDE : 0) | (samples.at_limit ? PROBE_AT_LIMIT : 0)) ==
                  (number(v, "format") & 0x87),
              "%s", v->values[0]);
        probe_begin_samples(out, samples.number, samples.tick, (uint8_t)number(v, "format"), samples.count);
        for (uint8_t i = 0; i < samples.count * samples.axes; i++) {
            int32_t value = probe_value(&samples, i);
            CHECK(value == listed(v, i), "%s value %d: %ld", v->values[0], i, (long)value);
            if (samples.wide) {
                probe_put24(out, (uint32_t)value);
            } else {
                probe_put16(out, (uint16_t)value);
            }
        }
        return probe_end(out);
    }
    if (strcmp(kind, "tach") == 0) {
        CHECK(probe_read_tach(body, length, &tach), "%s", v->values[0]);
        SAME(tach.number, "number");
        SAME(tach.missed, "missed");
        SAME(tach.count, "count");
        probe_begin_tach(out, tach.number, tach.missed, tach.count);
        for (uint8_t i = 0; i < tach.count; i++) {
            CHECK(probe_edge(&tach, i) == listed(v, i), "%s edge %d", v->values[0], i);
            probe_put32(out, probe_edge(&tach, i));
        }
        return probe_end(out);
    }
    if (strcmp(kind, "button") == 0) {
        CHECK(probe_read_button(body, length, &button), "%s", v->values[0]);
        SAME(button.tick, "tick");
        SAME(button.button, "button");
        SAME(button.down, "down");
        SAME(button.presses, "presses");
        return probe_write_button(out, button.tick, button.button, button.down, button.presses);
    }
    if (strcmp(kind, "status") == 0) {
        CHECK(probe_read_status(body, length, &status), "%s", v->values[0]);
        SAME(status.tick, "tick");
        SAME(status.dropped, "dropped");
        SAME(status.bad_commands, "badCommands");
        SAME(status.temperature, "temperature");
        SAME(status.supply, "supply");
        return probe_write_status(out, status.tick, status.dropped, status.bad_commands, status.temperature,
                                  status.supply);
    }
    if (strcmp(kind, "pong") == 0) {
        CHECK(probe_read_pong(body, length, &pong), "%s", v->values[0]);
        SAME(pong.id, "id");
        SAME(pong.received, "received");
        SAME(pong.sent, "sent");
        return probe_write_pong(out, pong.id, pong.received, pong.sent);
    }
    if (strcmp(kind, "answer") == 0) {
        CHECK(probe_read_answer(body, length, &answer), "%s", v->values[0]);
        SAME(answer.command, "command");
        SAME(answer.result, "result");
        return probe_write_answer(out, answer.command, answer.result);
    }
    probe_begin(out, body[0]);
    for (uint8_t i = 1; i < length; i++) {
        probe_put8(out, body[i]);
    }
    return probe_end(out);
}

static void command_is_understood(const struct block *v, const struct probe_decoder *in) {
    struct probe_command command;
    enum probe_understood understood = probe_read_command(in, &command);
    const char *kind = text(v, "kind");
    if (in->body[0] < PROBE_FIRST_COMMAND) {
        CHECK(understood == PROBE_NOT_FOR_PROBES, "%s", v->values[0]);
        return;
    }
    CHECK(understood == PROBE_COMMAND, "%s", v->values[0]);
    SAME(command.type, "type");
    if (strcmp(kind, "ping") == 0) {
        SAME(command.id, "id");
    } else if (strcmp(kind, "rate") == 0) {
        SAME(command.rate_num, "num");
        SAME(command.rate_den, "den");
    }
}

static FILE *open_vectors(const char *folder, const char *name) {
    char path[1000];
    FILE *file;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    file = fopen(path, "r");
    if (!file) {
        printf("FAILED: cannot read %s\n", path);
        exit(1);
    }
    return file;
}

static void good_vectors_hold(const char *folder) {
    FILE *file = open_vectors(folder, "good.txt");
    struct block block;
    const struct block *v = &block;
    unsigned blocks = 0;
    while (next_block(file, &block)) {
        static uint8_t body[MOST_BYTES], wire[MOST_BYTES];
        size_t body_bytes = hex(v, "body", body);
        size_t wire_bytes = hex(v, "wire", wire);
        struct probe_decoder in;
        struct probe_encoder out;
        uint8_t sent;
        blocks++;
        CHECK(body_bytes >= 1 && body_bytes <= PROBE_MOST_BODY, "%s", v->values[0]);
        CHECK(slow_crc(body, body_bytes) == number(v, "crc"), "%s", v->values[0]);

        probe_begin(&out, body[0]);
        for (size_t i = 1; i < body_bytes; i++) {
            probe_put8(&out, body[i]);
        }
        sent = probe_end(&out);
        CHECK(sent == wire_bytes && memcmp(out.wire, wire, wire_bytes) == 0, "%s is not what is sent", v->values[0]);

        probe_reset(&in);
        CHECK(feed(&in, wire, wire_bytes) == PROBE_FRAME, "%s", v->values[0]);
        CHECK(in.length == body_bytes && memcmp(in.body, body, body_bytes) == 0, "%s", v->values[0]);
        CHECK(in.framed == wire_bytes && in.rejected == 0 && in.pending == 0, "%s", v->values[0]);
        command_is_understood(v, &in);

        sent = read_and_write(v, in.body, in.length, &out);
        if (!text(v, "extra")) {
            CHECK(sent == wire_bytes && memcmp(out.wire, wire, wire_bytes) == 0, "%s is not rewritten", v->values[0]);
        }
    }
    fclose(file);
    CHECK(blocks >= 40, "only %u good frames", blocks);
    printf("%u good frames\n", blocks);
}

static const char *reason(const struct probe_decoder *in, enum probe_event event) {
    switch (event) {
    case PROBE_TOO_LONG:
        return "TOO_LONG";
    case PROBE_BAD_STUFFING:
        return "BAD_STUFFING";
    case PROBE_TOO_SHORT:
        return "TOO_SHORT";
    case PROBE_BAD_CHECKSUM:
        return "BAD_CHECKSUM";
    case PROBE_FRAME:
        return probe_fields_fit(in->body, in->length) ? "none" : "BAD_FIELDS";
    default:
        return "none";
    }
}

/* After each rejected piece a sound frame follows and has to be taken: nothing bad may leak into it. */
static void bad_vectors_are_rejected(const char *folder) {
    FILE *file = open_vectors(folder, "bad.txt");
    struct block block;
    const struct block *v = &block;
    unsigned blocks = 0;
    struct probe_decoder in;
    probe_reset(&in);
    while (next_block(file, &block)) {
        static uint8_t wire[MOST_BYTES];
        size_t wire_bytes = hex(v, "wire", wire);
        struct probe_encoder out;
        uint8_t sent;
        uint32_t before = in.rejected;
        enum probe_event event = feed(&in, wire, wire_bytes);
        blocks++;
        CHECK(strcmp(reason(&in, event), text(v, "reason")) == 0, "%s: %s", v->values[0], reason(&in, event));
        CHECK((long long)(in.rejected - before) == number(v, "rejected"), "%s: %lu bytes", v->values[0],
              (unsigned long)(in.rejected - before));
        sent = probe_write_answer(&out, PROBE_START, PROBE_DONE);
        CHECK(feed(&in, out.wire, sent) == PROBE_FRAME, "after %s", v->values[0]);
    }
    fclose(file);
    CHECK(blocks >= 30, "only %u bad pieces", blocks);
    printf("%u bad pieces\n", blocks);
}

/* A generator of our own, so that a failure can be run again anywhere [Marsaglia2003]. */
static uint32_t seed = 2463534242u;

static uint32_t any(uint32_t below) {
    seed ^= seed << 13;
    seed ^= seed >> 17;
    seed ^= seed << 5;
    return (uint32_t)(((uint64_t)seed * below) >> 32);
}

static uint8_t any_frame(struct probe_encoder *out) {
    uint8_t bytes = (uint8_t)(1 + any(PROBE_MOST_BODY));
    uint32_t zeros = any(3) * 50; /* of a hundred: none, half or all */
    probe_begin(out, any(2) ? (uint8_t)(1 + any(7)) : (uint8_t)any(256));
    for (uint8_t i = 1; i < bytes; i++) {
        probe_put8(out, any(100) < zeros ? 0 : (uint8_t)any(256));
    }
    return probe_end(out);
}

static void every_frame_comes_back(void) {
    struct probe_decoder in;
    struct probe_encoder out;
    probe_reset(&in);
    for (int i = 0; i < 20000; i++) {
        uint8_t sent = any_frame(&out);
        enum probe_event event = PROBE_MORE;
        uint16_t crc = out.crc;
        CHECK(sent >= 5 && sent <= PROBE_MOST_WIRE && out.wire[sent - 1] == 0, "%d", sent);
        CHECK(memchr(out.wire, 0, sent) == &out.wire[sent - 1], "a zero byte inside frame %d", i);
        for (uint8_t k = 0; k < sent; k++) {
            CHECK(event == PROBE_MORE, "ends early at %d", k);
            event = probe_take(&in, out.wire[k]);
        }
        CHECK(event == PROBE_FRAME && in.length == sent - 4, "frame %d", i);
        CHECK(slow_crc(in.body, in.length) == complement(crc), "frame %d", i);
    }
    CHECK(in.rejected == 0, "%lu", (unsigned long)in.rejected);
}

static void too_long_a_body_is_not_sent(void) {
    struct probe_encoder out;
    probe_begin(&out, 1);
    for (int i = 0; i < 249; i++) {
        probe_put8(&out, 7);
    }
    CHECK(probe_end(&out) == PROBE_MOST_WIRE, "%d", out.used);
    probe_begin(&out, 1);
    for (int i = 0; i < 250; i++) {
        probe_put8(&out, 7);
    }
    CHECK(probe_end(&out) == 0, "a body of 251 bytes: %d", out.used);
    probe_begin(&out, 1);
    for (int i = 0; i < 1000; i++) {
        probe_put8(&out, 7);
    }
    CHECK(probe_end(&out) == 0, "%d", out.used);
    CHECK(probe_write_answer(&out, 1, 1) == 7, "the next frame is sound again");
}

/* Frames with bits turned, bytes lost and put in, cut short, and plain noise: each byte is in exactly one account. */
static void every_byte_is_accounted_for(void) {
    struct probe_decoder in;
    struct probe_encoder out;
    uint32_t taken = 0, events = 0, frames = 0, false_frames = 0;
    uint32_t counted_framed = 0, counted_rejected = 0;
    probe_reset(&in);
    while (taken < 20000000) {
        uint8_t sent = any_frame(&out);
        uint32_t harm = any(6);
        uint32_t noise = harm == 5 ? any(600) : 0;
        bool harmed = false;
        for (uint32_t k = 0; k < sent + noise; k++) {
            uint8_t byte = k < sent ? out.wire[k] : (uint8_t)any(256);
            enum probe_event event;
            if (harm == 1 && any(100) == 0) {
                byte = (uint8_t)(byte ^ (1u << any(8)));
                harmed = true;
            } else if (harm == 2 && any(100) == 0) {
                harmed = true;
                continue;
            } else if (harm == 3 && k > 0 && any(sent) == 0) {
                break;
            } else if (harm == 4 && any(100) == 0) {
                uint8_t other = (uint8_t)any(256);
                harmed |= other != byte;
                byte = other;
            }
            event = probe_take(&in, byte);
            taken++;
            if (event == PROBE_FRAME) {
                frames++;
                false_frames += harmed || k >= sent;
                if (any(5) == 0) {
                    probe_refuse(&in);
                    counted_rejected += in.last;
                } else {
                    counted_framed += in.last;
                }
            } else if (event == PROBE_EMPTY) {
                counted_framed += in.last;
            } else if (event != PROBE_MORE) {
                counted_rejected += in.last;
            }
            events += event != PROBE_MORE;
            CHECK(in.framed + in.rejected + in.pending == taken, "at byte %lu", (unsigned long)taken);
            CHECK(in.pending < PROBE_MOST_WIRE, "%d", in.pending);
        }
    }
    CHECK(in.framed == counted_framed && in.rejected == counted_rejected, "events and counters differ");
    CHECK(frames > 40000, "%lu frames", (unsigned long)frames);
    /* Of about 90,000 ends that are no frame's, a 16-bit check lets 1 in 65,536 pass: 10 is beyond chance. */
    CHECK(false_frames <= 10, "%lu false frames", (unsigned long)false_frames);
    printf("%lu bytes: %lu events, %lu frames, %lu of them harmed or noise\n", (unsigned long)taken,
           (unsigned long)events, (unsigned long)frames, (unsigned long)false_frames);
}

static void echo_is_never_answered(void) {
    struct probe_decoder in;
    struct probe_encoder out;
    struct probe_command command;
    probe_reset(&in);
    feed(&in, out.wire, probe_write_answer(&out, 0x50, PROBE_UNKNOWN));
    CHECK(probe_read_command(&in, &command) == PROBE_NOT_FOR_PROBES, "ANSWER");
    probe_begin(&out, 0x50);
    feed(&in, out.wire, probe_end(&out));
    CHECK(probe_read_command(&in, &command) == PROBE_UNKNOWN_COMMAND && command.type == 0x50, "0x50");
    probe_begin(&out, PROBE_RATE);
    probe_put32(&out, 8000);
    feed(&in, out.wire, probe_end(&out));
    CHECK(probe_read_command(&in, &command) == PROBE_BAD_COMMAND, "RATE without den");
    probe_begin(&out, PROBE_PING);
    feed(&in, out.wire, probe_end(&out));
    CHECK(probe_read_command(&in, &command) == PROBE_BAD_COMMAND, "PING without id");
}

int main(int argc, char **argv) {
    if (argc != 2) {
        fprintf(stderr, "usage: probe_test VECTORS-FOLDER\n");
        return 2;
    }
    printf("seed %lu; encoder %zu bytes, decoder %zu bytes\n", (unsigned long)seed, sizeof(struct probe_encoder),
           sizeof(struct probe_decoder));
    CHECK(sizeof(struct probe_encoder) < 300 && sizeof(struct probe_decoder) < 300, "too large for a small board");
    checksum_matches_published_values();
    good_vectors_hold(argv[1]);
    bad_vectors_are_rejected(argv[1]);
    every_frame_comes_back();
    too_long_a_body_is_not_sent();
    echo_is_never_answered();
    every_byte_is_accounted_for();
    printf("%lu checks, %lu failed\n", checks, failures);
    return failures == 0 ? 0 : 1;
}
