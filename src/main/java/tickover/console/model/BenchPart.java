package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.drive.Vehicle;

/**
 * What can be put on the bench.
 *
 * @param part what the part is called; empty for one that is entered
 * @param bearing its bearing in one line, as {@link BearingWords} has it; ? if unknown
 * @param turning the ring that turns when the part turns as it does on its vehicle
 */
public record BenchPart(String part, String bearing, Ring turning) {
    /** Anything else: its bearing is typed. */
    public static final BenchPart OTHER = new BenchPart("", "", Ring.OUTER);

    public BenchPart {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(bearing, "bearing");
        Objects.requireNonNull(turning, "turning");
    }

    /** The parts of a drive, one for each bearing, and anything else. */
    static List<BenchPart> of(Vehicle vehicle) {
        List<BenchPart> all = new ArrayList<>();
        for (Pulley pulley : vehicle.pulleys()) {
            for (PulleyBearing bearing : pulley.bearings()) {
                all.add(
                        new BenchPart(
                                pulley.name(), BearingWords.of(bearing), bearing.turningRing()));
            }
        }
        all.add(OTHER);
        return all;
    }

    /**
     * Says what it is.
     *
     * @return a few words
     */
    public String words() {
        if (part.isEmpty()) {
            return "another part";
        }
        return part + ", bearing " + (bearing.equals("?") ? "unknown" : bearing);
    }
}
