package tickover.drive;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/** A belt and the pulleys it touches, in order of contact. */
public final class Belt {
    private final String name;
    private final Double lengthMm;
    private final List<String> path;

    private Belt(String name, Double lengthMm, List<String> path) {
        this.name = Objects.requireNonNull(name, "name");
        this.lengthMm = lengthMm;
        this.path = List.copyOf(path);
        if (name.isBlank()) {
            throw new IllegalArgumentException("name is blank, need a name");
        }
    }

    /**
     * A belt of unknown length.
     *
     * @param name unique within the vehicle
     * @param path pulley names in order of contact; empty if unknown
     * @return the belt
     */
    public static Belt of(String name, List<String> path) {
        return new Belt(name, null, path);
    }

    /**
     * A belt of known length.
     *
     * @param name unique within the vehicle
     * @param lengthMm length at the pitch line, mm, &gt; 0
     * @param path pulley names in order of contact; empty if unknown
     * @return the belt
     */
    public static Belt of(String name, double lengthMm, List<String> path) {
        if (!(lengthMm > 0 && Double.isFinite(lengthMm))) {
            throw new IllegalArgumentException("lengthMm=" + lengthMm + ", need > 0 mm");
        }
        return new Belt(name, lengthMm, path);
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
     * Returns its length at the pitch line as the user gave it.
     *
     * @return mm, empty if not given
     */
    public OptionalDouble lengthMm() {
        return lengthMm == null ? OptionalDouble.empty() : OptionalDouble.of(lengthMm);
    }

    /**
     * Returns the pulleys it touches.
     *
     * @return names in order of contact, empty if not given
     */
    public List<String> path() {
        return path;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Belt b
                && name.equals(b.name)
                && Objects.equals(lengthMm, b.lengthMm)
                && path.equals(b.path);
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, lengthMm, path);
    }
}
