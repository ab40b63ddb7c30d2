package tickover.console.model;

import java.util.Objects;
import java.util.stream.Collectors;
import tickover.drive.Face;
import tickover.drive.Pulley;
import tickover.drive.Ring;
import tickover.drive.Role;

/**
 * One pulley while it is entered: numbers are the texts that were typed, so that a half-typed one
 * is not lost. Lengths are in mm here, whatever the screen shows.
 *
 * @param name what it is called
 * @param role what it does
 * @param diameter at the belt's pitch line, mm
 * @param face the side of the belt that it runs on
 * @param x centre to the right, mm; empty if not measured
 * @param y centre upwards, mm; empty if not measured
 * @param bearings its bearings as {@link BearingWords} writes them
 * @param ring the ring of its bearings that turns
 * @param lines what passes so many times per turn, as in {@code 36 slots, 11 blades}
 */
public record PulleyRow(
        String name,
        Role role,
        String diameter,
        Face face,
        String x,
        String y,
        String bearings,
        Ring ring,
        String lines) {
    public PulleyRow {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(role, "role");
        Objects.requireNonNull(diameter, "diameter");
        Objects.requireNonNull(face, "face");
        Objects.requireNonNull(x, "x");
        Objects.requireNonNull(y, "y");
        Objects.requireNonNull(bearings, "bearings");
        Objects.requireNonNull(ring, "ring");
        Objects.requireNonNull(lines, "lines");
    }

    static PulleyRow of(Pulley p) {
        return new PulleyRow(
                p.name(),
                p.role(),
                Numbers.text(p.diameterMm()),
                p.face(),
                p.position().map(c -> Numbers.text(c.xMm())).orElse(""),
                p.position().map(c -> Numbers.text(c.yMm())).orElse(""),
                p.bearings().stream().map(BearingWords::of).collect(Collectors.joining(", ")),
                p.bearings().stream()
                        .findFirst()
                        .map(b -> b.turningRing())
                        .orElse(p.role().usualTurningRing()),
                p.passLines().stream()
                        .map(l -> Numbers.text(l.perTurn()) + " " + l.name())
                        .collect(Collectors.joining(", ")));
    }

    /** The same at another place. */
    PulleyRow at(double xMm, double yMm) {
        return new PulleyRow(
                name,
                role,
                diameter,
                face,
                Numbers.text(Math.rint(xMm)),
                Numbers.text(Math.rint(yMm)),
                bearings,
                ring,
                lines);
    }

    /**
     * Returns the same pulley doing something else; its ring follows if it was the usual one.
     *
     * @param other what it does
     * @return the changed row
     */
    public PulleyRow as(Role other) {
        boolean usual = ring == role.usualTurningRing();
        return new PulleyRow(
                name,
                other,
                diameter,
                face,
                x,
                y,
                bearings,
                usual ? other.usualTurningRing() : ring,
                lines);
    }

    /**
     * Returns the same pulley under another name.
     *
     * @param value as typed
     * @return the changed row
     */
    public PulleyRow named(String value) {
        return new PulleyRow(value, role, diameter, face, x, y, bearings, ring, lines);
    }

    /**
     * Returns the same pulley of another diameter.
     *
     * @param value mm, as typed
     * @return the changed row
     */
    public PulleyRow wide(String value) {
        return new PulleyRow(name, role, value, face, x, y, bearings, ring, lines);
    }

    /**
     * Returns the same pulley on another side of the belt.
     *
     * @param value the side
     * @return the changed row
     */
    public PulleyRow on(Face value) {
        return new PulleyRow(name, role, diameter, value, x, y, bearings, ring, lines);
    }

    /**
     * Returns the same pulley further to one side.
     *
     * @param value centre to the right, mm, as typed
     * @return the changed row
     */
    public PulleyRow across(String value) {
        return new PulleyRow(name, role, diameter, face, value, y, bearings, ring, lines);
    }

    /**
     * Returns the same pulley higher or lower.
     *
     * @param value centre upwards, mm, as typed
     * @return the changed row
     */
    public PulleyRow up(String value) {
        return new PulleyRow(name, role, diameter, face, x, value, bearings, ring, lines);
    }

    /**
     * Returns the same pulley with other bearings.
     *
     * @param value as {@link BearingWords} reads them
     * @return the changed row
     */
    public PulleyRow bearing(String value) {
        return new PulleyRow(name, role, diameter, face, x, y, value, ring, lines);
    }

    /**
     * Returns the same pulley turning another ring.
     *
     * @param value the ring
     * @return the changed row
     */
    public PulleyRow turning(Ring value) {
        return new PulleyRow(name, role, diameter, face, x, y, bearings, value, lines);
    }

    /**
     * Returns the same pulley with something else that passes.
     *
     * @param value such as 11 blades
     * @return the changed row
     */
    public PulleyRow passing(String value) {
        return new PulleyRow(name, role, diameter, face, x, y, bearings, ring, value);
    }
}
