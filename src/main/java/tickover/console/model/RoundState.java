package tickover.console.model;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import tickover.diagnose.Mount;
import tickover.drive.Condition;
import tickover.drive.PartWords;
import tickover.session.LiveReading;
import tickover.session.RecordStatus;

/**
 * What the round's screen shows, in words.
 *
 * @param running whether a recording runs
 * @param capturing whether a capture runs in it
 * @param instruction what to do now, one or two sentences
 * @param progressRatio how much of the running capture is done, 0 to 1
 * @param speed engine speed in words
 * @param level level in words
 * @param line how the line does, in words
 * @param touches what to touch
 * @param aimed which of them is meant now, from 0; as many as there are when all is done
 * @param cautions what to watch for before the next one
 */
public record RoundState(
        boolean running,
        boolean capturing,
        String instruction,
        double progressRatio,
        String speed,
        String level,
        String line,
        List<Touch> touches,
        int aimed,
        List<String> cautions) {
    static final RoundState IDLE =
            new RoundState(false, false, "", 0, "", "", "", List.of(), 0, List.of());

    public RoundState {
        Objects.requireNonNull(instruction, "instruction");
        Objects.requireNonNull(speed, "speed");
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(line, "line");
        touches = List.copyOf(touches);
        cautions = List.copyOf(cautions);
    }

    /** Puts a round into words; without a status it has not begun. */
    static RoundState of(
            List<Touch> touches,
            int aimed,
            RecordStatus statusOrNull,
            double captureS,
            List<String> cautions,
            boolean replays) {
        boolean capturing = statusOrNull != null && statusOrNull.capturing();
        return new RoundState(
                statusOrNull != null,
                capturing,
                replays
                        ? replayed(statusOrNull)
                        : instruction(touches, aimed, statusOrNull, captureS),
                capturing ? Math.min(1, statusOrNull.captureLengthS() / captureS) : 0,
                statusOrNull == null ? "" : speed(statusOrNull, "no speed"),
                statusOrNull == null ? "" : level(statusOrNull, "hold it less hard"),
                statusOrNull == null ? "" : line(statusOrNull),
                touches,
                aimed,
                cautions);
    }

    /** What a recording that runs again is at. */
    static String replayed(RecordStatus statusOrNull) {
        if (statusOrNull == null) {
            return "A recording runs again here. Press the space bar to let it run from its begin.";
        }
        String at =
                String.format(Locale.ROOT, "%.0f s of the recording: ", statusOrNull.elapsedS());
        if (statusOrNull.finished()) {
            return "The recording has ended. Finish to see all that it says.";
        }
        if (statusOrNull.capturing()) {
            return at + "captured on " + PartWords.the(statusOrNull.point()) + ".";
        }
        return at
                + (statusOrNull.point().isEmpty()
                        ? "all captures are over."
                        : "before the capture on " + PartWords.the(statusOrNull.point()) + ".");
    }

    private static String instruction(
            List<Touch> touches, int aimed, RecordStatus statusOrNull, double captureS) {
        if (statusOrNull == null) {
            return "Plug the probe in, read the cautions, then press the space bar.";
        }
        if (statusOrNull.finished()) {
            return "The recording has ended. What it holds is on the disk: finish the round.";
        }
        Optional<String> lost = problem(statusOrNull);
        if (statusOrNull.latest().isEmpty() && lost.isPresent()) {
            return "Nothing comes from the probe: " + lost.get() + ". When it does, go on.";
        }
        if (statusOrNull.capturing()) {
            return String.format(
                    Locale.ROOT,
                    "Hold still on %s: %.0f of %.0f s.",
                    PartWords.the(statusOrNull.point()),
                    statusOrNull.captureLengthS(),
                    captureS);
        }
        if (aimed >= touches.size()) {
            return "Everything proposed is done. Finish the round, or choose one more point.";
        }
        Touch next = touches.get(aimed);
        String again = next.state() == Touch.State.REPEAT ? " once more" : "";
        String why = again.isEmpty() || next.why().isEmpty() ? "" : " (" + brief(next.why()) + ")";
        return "Put the probe on "
                + PartWords.the(next.point())
                + again
                + why
                + (next.condition().equals(Condition.UNLOADED) ? "" : ", with " + next.condition())
                + ": a bolt head or the housing, never anything that turns. Then press the space"
                + " bar.";
    }

    /** The latest speed; {@code without} where samples come and no speed does. */
    static String speed(RecordStatus status, String without) {
        return status.latest()
                .map(
                        r ->
                                r.speedRpm().isPresent()
                                        ? String.format(
                                                Locale.ROOT, "%.0f rpm", r.speedRpm().getAsDouble())
                                        : without)
                .orElse("no samples");
    }

    /** Why nothing comes from the probe; empty where something does. */
    static String silence(RecordStatus status) {
        if (status.latest().isPresent()) {
            return "";
        }
        if (status.finished()) {
            return "The recording has ended.";
        }
        return problem(status).map(p -> p + ".").orElse("No samples come from the probe yet.");
    }

    /** What stands in the way of a line; without a full stop. */
    private static Optional<String> problem(RecordStatus status) {
        return status.lines().stream()
                .map(RecordStatus.LineStatus::problem)
                .filter(p -> !p.isEmpty())
                .map(p -> p.endsWith(".") ? p.substring(0, p.length() - 1) : p)
                .findFirst();
    }

    /** A reason in a word or two; all of it stands in the list. */
    private static String brief(String why) {
        int end = why.indexOf(':');
        String first = end > 0 ? why.substring(0, end) : why.replaceAll("\\.$", "");
        return first.substring(0, 1).toLowerCase(Locale.ROOT) + first.substring(1);
    }

    /** The latest level, and what to do where it clips. */
    static String level(RecordStatus status, String againstClipping) {
        return status.latest()
                .map(
                        (LiveReading r) ->
                                String.format(
                                        Locale.ROOT,
                                        "%.2f m/s² rms%s",
                                        r.rmsMps2(),
                                        r.atLimit() ? ", CLIPPED: " + againstClipping : ""))
                .orElse("");
    }

    /**
     * Says what pressing the button would do.
     *
     * @return a few words
     */
    public String pressWords() {
        if (!running) {
            return "Start the round (space)";
        }
        return capturing ? "Stop (space)" : "Capture (space)";
    }

    /**
     * Says how a probe is held.
     *
     * @param mount how
     * @return a few words
     */
    public static String held(Mount mount) {
        return switch (mount) {
            case HAND -> "Held by hand";
            case MAGNET -> "On a magnet";
            case ADHESIVE -> "Glued or waxed on";
            case STUD -> "Screwed on";
        };
    }

    /** How the line does. */
    static String line(RecordStatus status) {
        for (RecordStatus.LineStatus line : status.lines()) {
            if (!line.problem().isEmpty()) {
                return line.problem();
            }
        }
        double bytesPerS = 0;
        long lost = 0;
        for (RecordStatus.LineStatus line : status.lines()) {
            bytesPerS += line.bytesPerS();
            lost += line.lostSamples();
        }
        return String.format(Locale.ROOT, "%.1f kB/s, %d samples lost", bytesPerS / 1000, lost);
    }
}
