package tickover.drive;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** A pulley as the user described it. */
public final class Pulley {
    private final String name;
    private final Role role;
    private final double diameterMm;
    private final Face face;
    private final Position position;
    private final List<PassLine> passLines;
    private final List<PulleyBearing> bearings;

    private Pulley(Builder b) {
        this.name = b.name;
        this.role = b.role;
        this.diameterMm = b.diameterMm;
        this.face = b.face;
        this.position = b.position;
        this.passLines = List.copyOf(b.passLines);
        this.bearings = List.copyOf(b.bearings);
    }

    /**
     * Starts the description of a pulley.
     *
     * @param name unique within the vehicle, not empty
     * @param role what it drives
     * @param diameterMm diameter at the belt's pitch line, mm, &gt; 0
     * @return a builder: grooved, without position, lines or bearings
     */
    public static Builder named(String name, Role role, double diameterMm) {
        return new Builder(name, role, diameterMm);
    }

    /** Collects the optional parts of a pulley. One thread. */
    public static final class Builder {
        private final String name;
        private final Role role;
        private final double diameterMm;
        private Face face = Face.GROOVED;
        private Position position;
        private final List<PassLine> passLines = new ArrayList<>();
        private final List<PulleyBearing> bearings = new ArrayList<>();

        private Builder(String name, Role role, double diameterMm) {
            this.name = Objects.requireNonNull(name, "name");
            this.role = Objects.requireNonNull(role, "role");
            if (name.isBlank()) {
                throw new IllegalArgumentException("name is blank, need a name");
            }
            if (!(diameterMm > 0 && Double.isFinite(diameterMm))) {
                throw new IllegalArgumentException("diameterMm=" + diameterMm + ", need > 0 mm");
            }
            this.diameterMm = diameterMm;
        }

        /**
         * Sets the side of the belt that it runs on.
         *
         * @param value the face
         * @return this
         */
        public Builder face(Face value) {
            this.face = Objects.requireNonNull(value, "value");
            return this;
        }

        /**
         * Sets where its centre is.
         *
         * @param value the position
         * @return this
         */
        public Builder at(Position value) {
            this.position = Objects.requireNonNull(value, "value");
            return this;
        }

        /**
         * Adds something that passes so many times per turn.
         *
         * @param value the line
         * @return this
         */
        public Builder line(PassLine value) {
            passLines.add(Objects.requireNonNull(value, "value"));
            return this;
        }

        /**
         * Adds a bearing.
         *
         * @param value the bearing
         * @return this
         */
        public Builder bearing(PulleyBearing value) {
            bearings.add(Objects.requireNonNull(value, "value"));
            return this;
        }

        /**
         * Finishes the pulley.
         *
         * @return the pulley
         */
        public Pulley build() {
            return new Pulley(this);
        }
    }

    /**
     * Returns its name.
     *
     * @return unique within the vehicle
     */
    public String name() {
        return name;
    }

    /**
     * Returns what it drives.
     *
     * @return the role
     */
    public Role role() {
        return role;
    }

    /**
     * Returns its diameter at the belt's pitch line.
     *
     * @return mm
     */
    public double diameterMm() {
        return diameterMm;
    }

    /**
     * Returns the side of the belt that it runs on.
     *
     * @return the face
     */
    public Face face() {
        return face;
    }

    /**
     * Returns where its centre is.
     *
     * @return empty if not measured
     */
    public Optional<Position> position() {
        return Optional.ofNullable(position);
    }

    /**
     * Returns what passes so many times per turn.
     *
     * @return vanes, blades, slots, pistons
     */
    public List<PassLine> passLines() {
        return passLines;
    }

    /**
     * Returns its bearings.
     *
     * @return any number
     */
    public List<PulleyBearing> bearings() {
        return bearings;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Pulley p
                && name.equals(p.name)
                && role == p.role
                && Double.compare(diameterMm, p.diameterMm) == 0
                && face == p.face
                && Objects.equals(position, p.position)
                && passLines.equals(p.passLines)
                && bearings.equals(p.bearings);
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, role, diameterMm, face, position, passLines, bearings);
    }
}
