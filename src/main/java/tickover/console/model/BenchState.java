package tickover.console.model;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import tickover.session.RecordStatus;

/**
 * What the bench's screen shows, in words.
 *
 * @param running whether a recording runs
 * @param capturing whether a capture runs in it
 * @param checking whether a capture is being judged
 * @param instruction what to do now, one or two sentences
 * @param progressRatio how much of the running capture is done, 0 to 1
 * @param speed speed of the turning ring in words
 * @param level level in words
 * @param line how the line does, in words
 * @param aimsGood whether the next capture is of a known-good part
 * @param takes the captures so far
 * @param verdict what they say
 */
public record BenchState(
        boolean running,
        boolean capturing,
        boolean checking,
        String instruction,
        double progressRatio,
        String speed,
        String level,
        String line,
        boolean aimsGood,
        List<BenchTakeRow> takes,
        BenchVerdictWords verdict) {
    /** What the next capture is of. */
    record Aim(String part, boolean knownGood, BenchSetup.SpeedFrom speed) {}

    public BenchState {
        Objects.requireNonNull(instruction, "instruction");
        Objects.requireNonNull(speed, "speed");
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(line, "line");
        takes = List.copyOf(takes);
        Objects.requireNonNull(verdict, "verdict");
    }

    /** Puts a bench into words; without a status nothing is recorded. */
    static BenchState of(
            Aim aim,
            RecordStatus statusOrNull,
            double captureS,
            List<BenchTakeRow> takes,
            BenchVerdictWords verdict,
            boolean replays) {
        boolean capturing = statusOrNull != null && statusOrNull.capturing();
        boolean checking = takes.stream().anyMatch(t -> t.state() == Touch.State.CHECKING);
        return new BenchState(
                statusOrNull != null,
                capturing,
                checking,
                replays
                        ? RoundState.replayed(statusOrNull)
                        : instruction(aim, statusOrNull, captureS, takes, checking),
                capturing ? Math.min(1, statusOrNull.captureLengthS() / captureS) : 0,
                statusOrNull == null || aim.speed() != BenchSetup.SpeedFrom.TACH
                        ? ""
                        : RoundState.speed(statusOrNull, "no tach edges"),
                statusOrNull == null
                        ? ""
                        : RoundState.level(statusOrNull, "less load, or a probe with more range"),
                statusOrNull == null ? "" : RoundState.line(statusOrNull),
                aim.knownGood(),
                takes,
                verdict);
    }

    private static String instruction(
            Aim aim,
            RecordStatus statusOrNull,
            double captureS,
            List<BenchTakeRow> takes,
            boolean checking) {
        if (statusOrNull == null) {
            return takes.isEmpty()
                    ? "Say what is on the bench, fasten the probe, read the cautions, then press"
                            + " the space bar."
                    : "The bench is closed. Press the space bar to begin another sitting.";
        }
        if (statusOrNull.capturing()) {
            return String.format(
                    Locale.ROOT,
                    "Keep it turning evenly: %.0f of %.0f s.",
                    statusOrNull.captureLengthS(),
                    captureS);
        }
        if (checking) {
            return "Let it run down by itself; the capture is being judged.";
        }
        String what = aim.knownGood() ? "the known-good " + aim.part() : "the " + aim.part();
        return "Clamped, lead tied off, eyes protected? Then turn "
                + what
                + " at one even speed near 1800 rpm with a light side load, then press the space"
                + " bar.";
    }

    /**
     * Says what pressing the button would do.
     *
     * @return a few words
     */
    public String pressWords() {
        if (!running) {
            return "Start at the bench (space)";
        }
        return capturing ? "Stop (space)" : "Capture (space)";
    }
}
