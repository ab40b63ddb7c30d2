package tickover.session;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/**
 * What to record.
 *
 * @param file where the bytes go; must not exist
 * @param vehicleToml text of the vehicle's description, empty if none is known
 * @param captures what is captured, in order; empty to record without captures, or with {@code
 *     byPress} those that {@link Recorder#aim} names while it runs
 * @param byPress whether a press of the probe's button begins each capture; otherwise there may be
 *     only one, which begins with the first samples
 * @param captureLengthS length of each capture, s; 0: until a press or the end
 * @param captureTurns length of each capture, crank turns; 0: no such limit
 * @param totalS length of the recording, s; 0: until the captures are done, or until it is stopped
 * @param pulsesPerTurn tach edges per turn of the marked pulley, &gt;= 1
 * @param tachPulley the pulley that carries the tach's mark
 */
public record RecordPlan(
        Path file,
        String vehicleToml,
        List<PlannedCapture> captures,
        boolean byPress,
        double captureLengthS,
        double captureTurns,
        double totalS,
        int pulsesPerTurn,
        String tachPulley) {
    public RecordPlan {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(vehicleToml, "vehicleToml");
        Objects.requireNonNull(tachPulley, "tachPulley");
        captures = List.copyOf(captures);
        if (!(captureLengthS >= 0 && captureTurns >= 0 && totalS >= 0)) {
            throw new IllegalArgumentException(
                    "captureLengthS="
                            + captureLengthS
                            + ", captureTurns="
                            + captureTurns
                            + ", totalS="
                            + totalS
                            + ", need >= 0");
        }
        if (!(pulsesPerTurn >= 1)) {
            throw new IllegalArgumentException("pulsesPerTurn=" + pulsesPerTurn + ", need >= 1");
        }
    }

    /**
     * Returns whether captures are named while it runs.
     *
     * @return true if the recording ends only when it is told to
     */
    public boolean openEnd() {
        return byPress && captures.isEmpty();
    }

    /**
     * Records everything until it is stopped.
     *
     * @param file where the bytes go; must not exist
     * @return the plan
     */
    public static RecordPlan everything(Path file) {
        return new RecordPlan(file, "", List.of(), false, 0, 0, 0, 1, "crank");
    }
}
