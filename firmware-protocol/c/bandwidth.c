/*
 * Makes the numbers of protocol.md §5 and §6 from the encoder. Without an argument it prints them, line by line as
 * they stand there; with the path of protocol.md it checks that each line does stand there. Exit code 1 if one does
 * not.
 */
#include "probe.h"

#include <stdio.h>
#include <string.h>

enum { KINDS = 4, BITS_PER_BYTE = 10, RESERVE_BYTES_PER_S = 1000 };

static const struct {
    uint8_t axes;
    uint8_t bytes;
} kind[KINDS] = {{1, 2}, {3, 2}, {1, 3}, {3, 3}};

static const uint32_t bauds[] = {115200, 230400, 460800, 500000, 921600, 1000000, 2000000};

static char document[100000];
static bool comparing;
static int missing;

static void line(const char *text) {
    if (!comparing) {
        puts(text);
    } else if (!strstr(document, text)) {
        printf("protocol.md lacks this line:\n%s\n", text);
        missing++;
    }
}

/* Fills one frame with as many whole samples as go in. Returns its bytes on the wire. */
static uint8_t full_frame(int k, uint8_t *samples) {
    struct probe_encoder out;
    uint8_t head = 11; /* type, number, tick, format, count */
    *samples = (uint8_t)((PROBE_MOST_BODY - head) / (kind[k].axes * kind[k].bytes));
    probe_begin_samples(&out, 1, 2, (uint8_t)(kind[k].axes | (kind[k].bytes == 3 ? PROBE_WIDE : 0)), *samples);
    for (int i = 0; i < *samples * kind[k].axes * kind[k].bytes; i++) {
        probe_put8(&out, (uint8_t)i);
    }
    return probe_end(&out);
}

/* What the reserve has to carry in a second: STATUS, 10 PONG, 4 TACH of 30 edges, 2 BUTTON. */
static uint32_t other_bytes_per_s(void) {
    struct probe_encoder out;
    uint32_t bytes = probe_write_status(&out, 1, 0, 0, PROBE_NO_TEMPERATURE, PROBE_NO_SUPPLY);
    bytes += 10u * probe_write_pong(&out, 1, 2, 3);
    bytes += 2u * probe_write_button(&out, 1, 0, true, 1);
    probe_begin_tach(&out, 0, 0, 30);
    for (uint32_t i = 0; i < 30; i++) {
        probe_put32(&out, i);
    }
    return bytes + 4u * probe_end(&out);
}

int main(int argc, char **argv) {
    char row[400];
    int used;
    uint8_t samples[KINDS], frame[KINDS];
    struct probe_encoder out;
    if (argc == 2) {
        FILE *file = fopen(argv[1], "r");
        if (!file || fread(document, 1, sizeof document - 1, file) == 0) {
            fprintf(stderr, "bandwidth: cannot read %s\n", argv[1]);
            return 2;
        }
        fclose(file);
        comparing = true;
    }
    for (int k = 0; k < KINDS; k++) {
        frame[k] = full_frame(k, &samples[k]);
    }

    used = sprintf(row, "| samples in a full frame |");
    for (int k = 0; k < KINDS; k++) {
        used += sprintf(row + used, " %d |", samples[k]);
    }
    line(row);
    used = sprintf(row, "| bytes of it on the wire |");
    for (int k = 0; k < KINDS; k++) {
        used += sprintf(row + used, " %d |", frame[k]);
    }
    line(row);
    used = sprintf(row, "| bytes per sample |");
    for (int k = 0; k < KINDS; k++) {
        used += sprintf(row + used, " %.3f |", (double)frame[k] / samples[k]);
    }
    line(row);
    for (size_t b = 0; b < sizeof bauds / sizeof bauds[0]; b++) {
        uint32_t bytes = bauds[b] / BITS_PER_BYTE - RESERVE_BYTES_PER_S;
        used = sprintf(row, "| %lu Bd |", (unsigned long)bauds[b]);
        for (int k = 0; k < KINDS; k++) {
            used += sprintf(row + used, " %lu |", (unsigned long)(bytes * samples[k] / frame[k]));
        }
        line(row);
    }
    sprintf(row, "%lu B/s", (unsigned long)other_bytes_per_s());
    line(row);

    probe_begin_samples(&out, 1000, 250000, 1, 3);
    probe_put16(&out, 0);
    probe_put16(&out, 100);
    probe_put16(&out, (uint16_t)-2);
    used = 0;
    for (int i = 0, bytes = probe_end(&out); i < bytes; i++) {
        used += sprintf(row + used, "%s%02X", i ? " " : "", out.wire[i]);
    }
    line(row);
    if (comparing) {
        printf("protocol.md: %d lines missing\n", missing);
    }
    return missing == 0 ? 0 : 1;
}
