package tickover.drive;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/** A belt with what can be computed of it. */
public final class DriveBelt {
    private final Belt belt;
    private final BeltRoute route;
    private final PartLine line;

    DriveBelt(Belt belt, BeltRoute route, double travelMm, SearchTolerance tolerance) {
        this.belt = Objects.requireNonNull(belt, "belt");
        this.route = route;
        OptionalDouble length = lengthMm();
        this.line =
                length.isEmpty() ? null : line(travelMm / length.getAsDouble(), tolerance, belt);
    }

    private static PartLine line(double order, SearchTolerance tolerance, Belt belt) {
        double ofLength = belt.lengthMm().isPresent() ? 0 : tolerance.beltLengthRatio();
        return new PartLine(
                partName(belt.name()),
                LineKind.BELT,
                "belt",
                order,
                Math.hypot(tolerance.beltSlipRatio(), ofLength),
                List.of());
    }

    /**
     * Makes the name under which a belt appears among the parts.
     *
     * @param belt the belt's own name
     * @return {@code belt:NAME}
     */
    public static String partName(String belt) {
        return "belt:" + belt;
    }

    /** A sentence if the given length is not the one that the positions give. */
    Optional<String> lengthContradiction(double toleranceRatio) {
        if (belt.lengthMm().isEmpty() || route == null) {
            return Optional.empty();
        }
        double givenMm = belt.lengthMm().getAsDouble();
        double computedMm = route.lengthMm();
        return Math.abs(givenMm / computedMm - 1) <= toleranceRatio
                ? Optional.empty()
                : Optional.of(
                        String.format(
                                Locale.ROOT,
                                "belt %s: length_mm=%.1f is given, but positions and diameters"
                                        + " give %.1f mm, which is more than %.1f %% apart; the"
                                        + " given length is used, check both",
                                belt.name(),
                                givenMm,
                                computedMm,
                                100 * toleranceRatio));
    }

    /**
     * Returns its name.
     *
     * @return unique within the vehicle
     */
    public String name() {
        return belt.name();
    }

    /**
     * Returns the belt as the user described it.
     *
     * @return the belt
     */
    public Belt belt() {
        return belt;
    }

    /**
     * Returns its length at the pitch line: the given one, else the one computed from positions.
     *
     * @return mm, empty if neither is known
     */
    public OptionalDouble lengthMm() {
        return belt.lengthMm().isPresent() ? belt.lengthMm() : computedLengthMm();
    }

    /**
     * Returns its length as the positions give it.
     *
     * @return mm, empty if it could not be laid out
     */
    public OptionalDouble computedLengthMm() {
        return route == null ? OptionalDouble.empty() : OptionalDouble.of(route.lengthMm());
    }

    /**
     * Returns how the belt lies: spans and arcs, for drawing.
     *
     * @return empty if it could not be laid out
     */
    public Optional<BeltRoute> route() {
        return Optional.ofNullable(route);
    }

    /**
     * Returns belt turns per crank turn, π·(crank pitch diameter)/length for a belt on the crank.
     *
     * @return empty if the length is unknown
     */
    public OptionalDouble order() {
        return line == null ? OptionalDouble.empty() : OptionalDouble.of(line.order());
    }

    /**
     * Returns the line of a damaged place on the belt.
     *
     * @return empty if the length is unknown
     */
    public Optional<PartLine> line() {
        return Optional.ofNullable(line);
    }
}
