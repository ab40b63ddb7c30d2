/*
 * Runs the firmware in the simulated controller and holds what it sends to what was played to it.
 *
 * usage: check_simulated SIMULATED_PROBE PROBE.elf [slow]
 *
 * With slow, the firmware's line is too slow for its rate and for the turns played, and its ticks wrap: samples and
 * edges are lost, and each has to be counted.
 * Exit code 1 if a check fails.
 */
#define _XOPEN_SOURCE 600
#define _DEFAULT_SOURCE

#include "../c/probe_read.h"

#include <fcntl.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

/* What is played. An order as high as 60 makes the time between samples and edges visible: 1 us is 0.28 degrees. */
#define RPM 780.0
/* Fast, and no whole number of sample periods: edges fall on every place of a period, its very start included. */
#define SLOW_RPM 29987.0
#define TICK_HZ 2000000.0
#define NOISE_MPS2 0.3
enum { LINES = 3, MOST_SAMPLES = 100000, MOST_TURNS = 1000, MOST_GAPS = 1000 };
static const struct {
    double order, rms_mps2, phase_deg;
} played[LINES] = {{1, 1.5, 90}, {5.997, 0.8, 0}, {60, 2.0, -45}};

static const double pi = 3.14159265358979323846;
static unsigned checks, failures;

#define CHECK(holds, ...)                                                                                              \
    do {                                                                                                               \
        checks++;                                                                                                      \
        if (!(holds) && failures++ < 20) {                                                                             \
            printf("FAILED line %d: %s: ", __LINE__, #holds);                                                          \
            printf(__VA_ARGS__);                                                                                       \
            printf("\n");                                                                                              \
        }                                                                                                              \
    } while (0)

static int line_fd;
static struct probe_decoder in;
static unsigned long bytes_read;

/* What has come since it was last cleared. */
static struct heard {
    unsigned hellos, answers, pongs, statuses, buttons, blocks, gaps, at_limit;
    struct probe_hello hello;
    struct probe_answer answer;
    struct probe_pong pong;
    struct probe_status status;
    struct probe_button button[2];
    uint32_t next_number, first_tick, missing;
    uint32_t samples, edges, edges_missed;
    bool has_origin;
    uint32_t origin; /* the tick that ticks[] and edges[] count from */
} heard;
static double values[MOST_SAMPLES];
static double ticks[MOST_SAMPLES];
static double edges[MOST_TURNS];
static uint16_t edge_numbers[MOST_TURNS];
static uint32_t gap_from[MOST_GAPS], gap_to[MOST_GAPS];
static uint16_t next_edge;
static uint32_t ticks_per_sample = 250;

static void clear(void) {
    memset(&heard, 0, sizeof heard);
    next_edge = 0;
}

/* Widens a tick; what comes first, a sample or an edge, is the origin. */
static double since_origin(uint32_t tick) {
    if (!heard.has_origin) {
        heard.has_origin = true;
        heard.origin = tick;
    }
    return (double)(int32_t)(tick - heard.origin);
}

static void take_samples(const struct probe_samples *samples) {
    if (heard.samples == 0) {
        CHECK(samples->number == 0, "first number %lu", (unsigned long)samples->number);
        heard.first_tick = samples->tick;
        heard.next_number = samples->number;
    }
    heard.gaps += samples->number != heard.next_number;
    if (samples->number != heard.next_number && heard.gaps <= MOST_GAPS) {
        gap_from[heard.gaps - 1] = heard.next_number;
        gap_to[heard.gaps - 1] = samples->number;
    }
    heard.missing += samples->number - heard.next_number;
    heard.next_number = samples->number + samples->count;
    CHECK(samples->tick == heard.first_tick + samples->number * ticks_per_sample, "sample %lu at tick %lu",
          (unsigned long)samples->number, (unsigned long)samples->tick);
    heard.at_limit += samples->at_limit;
    for (uint8_t i = 0; i < samples->count && heard.samples < MOST_SAMPLES; i++) {
        values[heard.samples] = probe_value(samples, i) * 5 * 9.80665 / 32768;
        ticks[heard.samples] = since_origin(samples->tick) + i * (double)ticks_per_sample;
        heard.samples++;
    }
}

static void take_frame(void) {
    struct probe_samples samples;
    struct probe_tach tach;
    switch (in.body[0]) {
    case PROBE_HELLO:
        heard.hellos++;
        probe_read_hello(in.body, in.length, &heard.hello);
        break;
    case PROBE_SAMPLES:
        heard.blocks++;
        probe_read_samples(in.body, in.length, &samples);
        take_samples(&samples);
        break;
    case PROBE_TACH:
        probe_read_tach(in.body, in.length, &tach);
        CHECK(tach.number == (uint16_t)(next_edge + tach.missed), "edge %u, missed %u", tach.number, tach.missed);
        next_edge = (uint16_t)(tach.number + tach.count);
        heard.edges_missed += tach.missed;
        for (uint8_t i = 0; i < tach.count && heard.edges < MOST_TURNS; i++) {
            edges[heard.edges] = since_origin(probe_edge(&tach, i));
            edge_numbers[heard.edges] = (uint16_t)(tach.number + i);
            heard.edges++;
        }
        break;
    case PROBE_BUTTON:
        probe_read_button(in.body, in.length, &heard.button[heard.buttons % 2]);
        heard.buttons++;
        break;
    case PROBE_STATUS:
        heard.statuses++;
        probe_read_status(in.body, in.length, &heard.status);
        break;
    case PROBE_PONG:
        heard.pongs++;
        probe_read_pong(in.body, in.length, &heard.pong);
        break;
    case PROBE_ANSWER:
        heard.answers++;
        probe_read_answer(in.body, in.length, &heard.answer);
        if (heard.answer.command == PROBE_START) { /* what came before it was numbered otherwise */
            clear();
            heard.answers = 1;
            heard.answer.command = PROBE_START;
        }
        break;
    default:
        CHECK(false, "frame type 0x%02X", in.body[0]);
    }
}

static double seconds_now(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void hear(double seconds) {
    double end = seconds_now() + seconds;
    while (seconds_now() < end) {
        static uint8_t bytes[4096];
        struct pollfd state = {.fd = line_fd, .events = POLLIN};
        ssize_t n = poll(&state, 1, 10) > 0 ? read(line_fd, bytes, sizeof bytes) : 0;
        bytes_read += n > 0 ? (unsigned long)n : 0;
        for (ssize_t i = 0; i < n; i++) {
            enum probe_event event = probe_take(&in, bytes[i]);
            if (event == PROBE_FRAME) {
                CHECK(probe_fields_fit(in.body, in.length), "type 0x%02X", in.body[0]);
                take_frame();
            }
        }
    }
}

/* Long, for a busy machine; what is awaited comes within a tenth of a second otherwise. */
#define PATIENCE_S 5.0
/* What must not come has this long to come. */
#define SILENCE_S 0.25

static void hear_until(const unsigned *counter, unsigned wanted) {
    double end = seconds_now() + PATIENCE_S;
    while (*counter < wanted && seconds_now() < end) {
        hear(0.01);
    }
}

static void say(const struct probe_encoder *out, uint8_t length) {
    CHECK(write(line_fd, out->wire, length) == length, "writing to the line");
}

/* Says a command without fields and waits for one frame more in a counter. */
static void command(uint8_t type, const unsigned *counter) {
    struct probe_encoder out;
    heard.answers = heard.hellos = 0;
    probe_begin(&out, type);
    say(&out, probe_end(&out));
    hear_until(counter, 1);
}

static void hear_samples(unsigned count) {
    double end = seconds_now() + PATIENCE_S + 10.0 * count / 8000;
    while (heard.samples < count && seconds_now() < end) {
        hear(0.01);
    }
}

static void ask_rate(uint32_t num, uint32_t den, uint8_t result) {
    struct probe_encoder out;
    heard.answers = 0;
    probe_begin(&out, PROBE_RATE);
    probe_put32(&out, num);
    probe_put32(&out, den);
    say(&out, probe_end(&out));
    hear_until(&heard.answers, 1);
    CHECK(heard.answers == 1 && heard.answer.command == PROBE_RATE && heard.answer.result == result,
          "RATE %lu/%lu: %u answers, result %u", (unsigned long)num, (unsigned long)den, heard.answers,
          heard.answer.result);
}

/* Fits one order's cosine and sine, by the angle that the tach edges give, to all samples between the edges. */
static void amplitudes_and_phases_are_right(void) {
    double turn_ticks = (edges[heard.edges - 1] - edges[0]) / (heard.edges - 1);
    double a[2 * LINES + 1][2 * LINES + 2];
    memset(a, 0, sizeof a);
    for (uint32_t i = 0; i < heard.samples; i++) {
        double turns = (ticks[i] - edges[0]) / turn_ticks;
        double row[2 * LINES + 2];
        for (int k = 0; k < LINES; k++) {
            row[2 * k] = cos(2 * pi * played[k].order * turns);
            row[2 * k + 1] = sin(2 * pi * played[k].order * turns);
        }
        row[2 * LINES] = 1;
        row[2 * LINES + 1] = values[i];
        for (int r = 0; r <= 2 * LINES; r++) {
            for (int c = 0; c < 2 * LINES + 2; c++) {
                a[r][c] += row[r] * row[c];
            }
        }
    }
    for (int p = 0; p <= 2 * LINES; p++) { /* the normal equations are nearly diagonal: no pivot is needed */
        for (int r = 0; r <= 2 * LINES; r++) {
            double factor = r == p ? 0 : a[r][p] / a[p][p];
            for (int c = 0; c < 2 * LINES + 2; c++) {
                a[r][c] -= factor * a[p][c];
            }
        }
    }
    for (int k = 0; k < LINES; k++) {
        double re = a[2 * k][2 * LINES + 1] / a[2 * k][2 * k];
        double im = -a[2 * k + 1][2 * LINES + 1] / a[2 * k + 1][2 * k + 1];
        double rms = sqrt((re * re + im * im) / 2);
        double phase_deg = atan2(im, re) * 180 / pi;
        /* Noise and rounding of variance s² leave a standard error of s/sqrt(N) rms; five of them. */
        double step_mps2 = 5 * 9.80665 / 512;
        double tolerance = 5 * sqrt((NOISE_MPS2 * NOISE_MPS2 + step_mps2 * step_mps2 / 12) / heard.samples);
        double off_deg = remainder(phase_deg - played[k].phase_deg, 360);
        printf("order %g: played %.3f m/s2 at %g deg, heard %.4f m/s2 at %.2f deg\n", played[k].order,
               played[k].rms_mps2, played[k].phase_deg, rms, phase_deg);
        CHECK(fabs(rms - played[k].rms_mps2) < tolerance, "off by %g m/s2, allowed %g", rms - played[k].rms_mps2,
              tolerance);
        /* The first edge heard is not the crank's first turn: an order with a fraction has gone on since then. */
        if (round(played[k].order) == played[k].order) {
            /* Half a tick of either kind of stamp, and the edge's place within the simulated instruction. */
            double clock_deg = 360 * played[k].order * 1.5 / turn_ticks;
            double noise_deg = tolerance / played[k].rms_mps2 * 180 / pi;
            CHECK(fabs(off_deg) < clock_deg + noise_deg, "off by %g deg, allowed %g", off_deg, clock_deg + noise_deg);
        }
    }
}

/* Each edge stands where its number says, those that were missed included. */
static void turns_are_right(double rpm) {
    double wanted = TICK_HZ * 60 / rpm;
    double worst = 0;
    for (uint32_t i = 1; i < heard.edges; i++) {
        double turns = edge_numbers[i] - edge_numbers[0];
        worst = fmax(worst, fabs(edges[i] - edges[0] - turns * wanted));
    }
    printf("%lu edges, %lu missed, %.2f ticks apart: off by %.2f at most\n", (unsigned long)heard.edges,
           (unsigned long)heard.edges_missed, wanted, worst);
    /* A tick of rounding at either end; the simulated counter itself rounds by up to one. */
    CHECK(worst < 2.5, "%g ticks", worst);
}

/* The HELLO of power-up may come whole, in part, or not: it depends on when the line was opened. */
static void await_quiet_line(void) {
    hear(SILENCE_S);
    probe_reset(&in);
}

static void normal_day(int orders_fd) {
    struct probe_encoder out;
    uint32_t origin;
    double off_turns;

    await_quiet_line();
    command(PROBE_IDENTIFY, &heard.hellos);
    CHECK(heard.hellos == 1 && heard.blocks == 0, "%u HELLO, %u blocks, %lu bytes read, %lu rejected", heard.hellos,
          heard.blocks, bytes_read, (unsigned long)in.rejected);
    if (heard.hellos == 0) {
        return; /* nothing that follows can hold: what was read says why */
    }
    CHECK(heard.hello.major == 1 && heard.hello.device == 4711 && heard.hello.boot == 7, "device %lu boot %u",
          (unsigned long)heard.hello.device, heard.hello.boot);
    CHECK(heard.hello.rate_num / heard.hello.rate_den == 8000 && heard.hello.tick_hz == TICK_HZ, "rate");

    command(PROBE_START, &heard.blocks);
    CHECK(heard.answers == 1 && heard.answer.result == PROBE_DONE && heard.hellos == 1, "START");
    for (uint32_t id = 100; id < 104; id++) {
        probe_begin(&out, PROBE_PING);
        probe_put32(&out, id);
        say(&out, probe_end(&out));
        hear_until(&heard.pongs, id - 99);
        CHECK(heard.pongs == id - 99 && heard.pong.id == id, "PING %lu", (unsigned long)id);
        CHECK(heard.pong.sent - heard.pong.received < 20000, "waited %lu ticks",
              (unsigned long)(heard.pong.sent - heard.pong.received));
    }
    ask_rate(4000, 1, PROBE_NOT_NOW);
    CHECK(write(orders_fd, "press\n", 6) == 6, "pressing");
    hear_samples(32000);
    printf("%lu samples in %u blocks, %u gaps\n", (unsigned long)heard.samples, heard.blocks, heard.gaps);
    CHECK(heard.gaps == 0 && heard.at_limit == 0, "%u gaps, %u at the limit", heard.gaps, heard.at_limit);
    CHECK(heard.samples >= 32000, "%lu samples", (unsigned long)heard.samples);
    CHECK(heard.statuses >= 3 && heard.status.dropped == 0 && heard.status.bad_commands == 0, "%u STATUS",
          heard.statuses);
    CHECK(heard.buttons == 2 && heard.button[0].down && !heard.button[1].down && heard.button[1].presses == 1,
          "%u BUTTON", heard.buttons);
    /* 0.1 s by the simulator; both ends are found within a turn of the main loop, 1 ms when it writes a frame. */
    CHECK(fabs((double)(heard.button[1].tick - heard.button[0].tick) - 0.1 * TICK_HZ) < 2000, "%lu ticks",
          (unsigned long)(heard.button[1].tick - heard.button[0].tick));
    CHECK(heard.edges > 40, "%lu edges", (unsigned long)heard.edges);
    CHECK(heard.edges_missed == 0, "%lu edges missed", (unsigned long)heard.edges_missed);
    if (heard.samples == 0 || heard.edges < 2) {
        return; /* there is no angle to measure by, and the checks above have said so */
    }
    turns_are_right(RPM);
    amplitudes_and_phases_are_right();
    origin = heard.origin + (uint32_t)(int32_t)edges[0];

    command(PROBE_STOP, &heard.answers);
    CHECK(heard.answers == 1 && heard.answer.command == PROBE_STOP && heard.answer.result == PROBE_DONE, "STOP");
    clear();
    hear(SILENCE_S);
    CHECK(heard.blocks == 0 && heard.edges == 0 && heard.statuses == 0, "%u blocks after STOP", heard.blocks);
    ask_rate(7000, 1, PROBE_CANNOT);
    ask_rate(8001, 1, PROBE_CANNOT);
    ask_rate(0, 1, PROBE_CANNOT);
    ask_rate(8000, 0, PROBE_CANNOT);
    hear(SILENCE_S);
    CHECK(heard.hellos == 0, "%u HELLO after refused rates", heard.hellos);
    ask_rate(10000, 2, PROBE_DONE);
    hear_until(&heard.hellos, 1);
    CHECK(heard.hellos == 1 && heard.hello.rate_num / heard.hello.rate_den == 5000, "HELLO after RATE");
    probe_begin(&out, 0x7F);
    heard.answers = 0;
    say(&out, probe_end(&out));
    hear_until(&heard.answers, 1);
    CHECK(heard.answers == 1 && heard.answer.command == 0x7F && heard.answer.result == PROBE_UNKNOWN, "0x7F");
    heard.answers = 0;
    probe_begin(&out, PROBE_RATE); /* without den: counted, not answered */
    probe_put32(&out, 8000);
    say(&out, probe_end(&out));
    out.wire[1] ^= 1; /* a harmed frame: the same */
    say(&out, out.used);
    probe_write_answer(&out, 0x50, PROBE_UNKNOWN); /* as by an echo: ignored */
    say(&out, out.used);
    hear(SILENCE_S);
    CHECK(heard.answers == 0, "%u answers to bad commands", heard.answers);

    ticks_per_sample = 400;
    command(PROBE_START, &heard.blocks);
    hear_samples(500);
    CHECK(heard.samples >= 500, "%lu samples", (unsigned long)heard.samples);
    command(PROBE_START, &heard.hellos); /* while sampling: numbering starts again, which take_samples checks */
    hear_until(&heard.statuses, 1);
    hear_samples(5000);
    CHECK(heard.samples >= 5000 && heard.gaps == 0, "%lu samples, %u gaps", (unsigned long)heard.samples, heard.gaps);
    if (heard.edges == 0) {
        CHECK(false, "no edge after the second START");
        return;
    }
    turns_are_right(RPM);
    off_turns = (int32_t)(heard.origin - origin) + edges[0];
    off_turns = remainder(off_turns, TICK_HZ * 60 / RPM);
    /* The turns between the two runs are whole: RATE has not moved the clock. The tolerance is that of one turn. */
    CHECK(fabs(off_turns) < 2.5, "RATE: the clock has stepped by %g ticks", off_turns);
    CHECK(heard.statuses == 1 && heard.status.bad_commands == 2, "%u STATUS, %u bad commands", heard.statuses,
          heard.status.bad_commands);
    CHECK(in.rejected == 0, "%lu bytes rejected", (unsigned long)in.rejected);
}

/*
 * More is sampled than the line carries. The numbers that are missing before a STATUS are those that it counts, and
 * the ticks stay right, which take_samples checks. Edges come faster than they can be sent between two blocks.
 */
static void slow_line(void) {
    struct probe_status status;
    double asked; /* the number of the sample that was being taken when STATUS was written */
    uint32_t missing = 0;
    await_quiet_line();
    command(PROBE_START, &heard.blocks);
    hear_until(&heard.statuses, 3);
    status = heard.status;
    asked = (double)(status.tick - heard.first_tick) / ticks_per_sample;
    for (double end = seconds_now() + PATIENCE_S; heard.next_number < asked + 1 && seconds_now() < end;) {
        hear(0.01);
    }
    CHECK(heard.next_number > asked, "%lu of %g", (unsigned long)heard.next_number, asked);
    for (unsigned g = 0; g < heard.gaps && g < MOST_GAPS; g++) {
        for (uint32_t k = gap_from[g]; k < gap_to[g]; k++) {
            missing += k < asked;
        }
    }
    printf("at sample %.0f %lu are missing in %u gaps, STATUS says %lu dropped\n", asked, (unsigned long)missing,
           heard.gaps, (unsigned long)status.dropped);
    CHECK(status.tick < heard.first_tick, "the ticks have not wrapped");
    CHECK(heard.edges_missed > 10, "%lu edges missed", (unsigned long)heard.edges_missed);
    turns_are_right(SLOW_RPM);
    CHECK(heard.statuses >= 3 && heard.gaps > 5, "%u STATUS, %u gaps", heard.statuses, heard.gaps);
    /* A sample is fetched, and counted, one period after it was taken, and the interrupt may be waiting. */
    CHECK(labs((long)missing - (long)status.dropped) <= 2, "%lu", (unsigned long)status.dropped);
    CHECK(in.rejected == 0, "%lu bytes rejected", (unsigned long)in.rejected);
    command(PROBE_STOP, &heard.answers);
}

int main(int argc, char **argv) {
    int to[2], from[2], status = -1;
    char path[100] = "";
    struct termios raw;
    pid_t pid;
    bool slow = argc == 4 && strcmp(argv[3], "slow") == 0;
    FILE *announced;
    setvbuf(stdout, NULL, _IOLBF, 0); /* what was found is out even if a sanitizer ends the run */
    if (argc != 3 && !slow) {
        fprintf(stderr, "usage: check_simulated SIMULATED_PROBE PROBE.elf [slow]\n");
        return 2;
    }
    if (pipe(to) != 0 || pipe(from) != 0) {
        return 2;
    }
    pid = fork();
    if (pid == 0) {
        dup2(to[0], 0);
        dup2(from[1], 1);
        close(to[1]);
        close(from[0]);
        execl(argv[1], argv[1], "--rpm", slow ? "29987" : "780", "--order", "1:1.5:90", "--order", "5.997:0.8",
              "--order", "60:2:-45", "--noise", "0.3", "--boot", "7", "--device", "4711", argv[2], (char *)NULL);
        _exit(127);
    }
    close(to[0]);
    close(from[1]);
    announced = fdopen(from[0], "r");
    if (!fgets(path, sizeof path, announced)) {
        fprintf(stderr, "check_simulated: %s has not said its path\n", argv[1]);
        return 1;
    }
    path[strcspn(path, "\n")] = 0;
    line_fd = open(path, O_RDWR | O_NOCTTY);
    if (line_fd < 0 || tcgetattr(line_fd, &raw) != 0) {
        fprintf(stderr, "check_simulated: cannot open %s\n", path);
        kill(pid, SIGTERM);
        return 1;
    }
    cfmakeraw(&raw);
    tcsetattr(line_fd, TCSANOW, &raw);
    probe_reset(&in);
    if (slow) {
        slow_line();
    } else {
        normal_day(to[1]);
    }
    close(line_fd);
    if (slow) {
        kill(pid, SIGTERM);
    } else {
        close(to[1]);
    }
    waitpid(pid, &status, 0);
    CHECK(WIFEXITED(status) && WEXITSTATUS(status) == 0, "simulated_probe ended with %d", status);
    printf("%u checks, %u failed\n", checks, failures);
    return failures == 0 ? 0 : 1;
}
