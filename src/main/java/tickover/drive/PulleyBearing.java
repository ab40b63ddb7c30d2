package tickover.drive;

import java.util.Objects;
import java.util.Optional;

/** A rolling bearing of a pulley: how much is known of it, and which ring turns. */
public final class PulleyBearing {
    private final String designation;
    private final BearingGeometry geometry;
    private final Ring turningRing;

    private PulleyBearing(String designation, BearingGeometry geometry, Ring turningRing) {
        this.designation = designation;
        this.geometry = geometry;
        this.turningRing = Objects.requireNonNull(turningRing, "turningRing");
    }

    /**
     * A bearing whose internals are known.
     *
     * @param geometry its internals
     * @param turningRing the ring that turns
     * @return the bearing
     */
    public static PulleyBearing ofGeometry(BearingGeometry geometry, Ring turningRing) {
        return new PulleyBearing(null, Objects.requireNonNull(geometry, "geometry"), turningRing);
    }

    /**
     * A bearing of which only the printed designation is known.
     *
     * @param designation as printed on the shield, such as 6203
     * @param turningRing the ring that turns
     * @return the bearing
     */
    public static PulleyBearing ofDesignation(String designation, Ring turningRing) {
        return new PulleyBearing(
                Objects.requireNonNull(designation, "designation"), null, turningRing);
    }

    /**
     * A bearing with both designation and internals; the internals count.
     *
     * @param designation as printed on the shield
     * @param geometry its internals
     * @param turningRing the ring that turns
     * @return the bearing
     */
    public static PulleyBearing of(String designation, BearingGeometry geometry, Ring turningRing) {
        return new PulleyBearing(
                Objects.requireNonNull(designation, "designation"),
                Objects.requireNonNull(geometry, "geometry"),
                turningRing);
    }

    /**
     * A bearing of which nothing is known but the ring that turns.
     *
     * @param turningRing the ring that turns
     * @return the bearing
     */
    public static PulleyBearing unknown(Ring turningRing) {
        return new PulleyBearing(null, null, turningRing);
    }

    /**
     * Returns the printed designation.
     *
     * @return empty if not given
     */
    public Optional<String> designation() {
        return Optional.ofNullable(designation);
    }

    /**
     * Returns the internals as the user gave them, before any look-up by designation.
     *
     * @return empty if not given
     */
    public Optional<BearingGeometry> geometry() {
        return Optional.ofNullable(geometry);
    }

    /**
     * Returns the ring that turns.
     *
     * @return outer for idlers and tensioners, inner for shafts
     */
    public Ring turningRing() {
        return turningRing;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof PulleyBearing b
                && Objects.equals(designation, b.designation)
                && Objects.equals(geometry, b.geometry)
                && turningRing == b.turningRing;
    }

    @Override
    public int hashCode() {
        return Objects.hash(designation, geometry, turningRing);
    }
}
