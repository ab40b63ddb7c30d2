package tickover.sim;

import java.util.Locale;

/** What can be put wrong. The words are those of visit folders and findings. */
public enum FaultKind {
    /** A spot on a bearing's outer race. */
    BEARING_OUTER_RING,
    /** A spot on a bearing's inner race. */
    BEARING_INNER_RING,
    /** A spot on a ball. */
    ROLLING_ELEMENT,
    /** A broken or loose cage. */
    CAGE,
    /** A dry or worn bearing. */
    BEARING_ROUGH,
    /** A pulley that does not run true. */
    ECCENTRIC,
    /** A part with play that knocks. */
    LOOSE,
    /** A damaged place on a belt. */
    BELT_DAMAGE,
    /** An injector or a valve that ticks. */
    TICK,
    /** Something in the engine outside its belt drive. */
    UNSPECIFIED,
    /** Nothing. */
    NONE;

    /**
     * Returns the word for it.
     *
     * @return lower case with hyphens
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    boolean isInBearing() {
        return switch (this) {
            case BEARING_OUTER_RING, BEARING_INNER_RING, ROLLING_ELEMENT, CAGE, BEARING_ROUGH ->
                    true;
            case ECCENTRIC, LOOSE, BELT_DAMAGE, TICK, UNSPECIFIED, NONE -> false;
        };
    }
}
