package tickover.drive;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a pulley drives or does. */
public enum Role {
    /** The engine's own pulley. */
    CRANK,
    /** Generator of the vehicle's current. */
    ALTERNATOR,
    /** Coolant pump. */
    WATER_PUMP,
    /** Air-conditioning compressor; its pulley turns whenever the engine runs. */
    COMPRESSOR,
    /** Power-steering pump. */
    STEERING_PUMP,
    /** Fan on a belt-driven hub. */
    FAN,
    /** Pulley that only guides the belt. */
    IDLER,
    /** Pulley that guides the belt and keeps it tight. */
    TENSIONER,
    /** Anything else on the belt. */
    OTHER;

    /**
     * Returns the word for it in visit folders.
     *
     * @return lower case with hyphens
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Returns the ring of its bearing that usually turns: parts on a stud or a nose turn on the
     * outer ring, parts on a shaft on the inner.
     *
     * @return common practice; the vehicle's own description counts before it
     */
    public Ring usualTurningRing() {
        return switch (this) {
            case IDLER, TENSIONER, COMPRESSOR, FAN -> Ring.OUTER;
            case CRANK, ALTERNATOR, WATER_PUMP, STEERING_PUMP, OTHER -> Ring.INNER;
        };
    }

    /**
     * Finds a role by its word.
     *
     * @param word as in visit folders
     * @return the role, or empty if there is none of that name
     */
    public static Optional<Role> ofWord(String word) {
        return Arrays.stream(values()).filter(r -> r.word().equals(word)).findFirst();
    }
}
