package tickover.drive;

/**
 * The words for kinds of lines that the model makes itself. Pass lines go by the name that the user
 * gave them, so a kind is a word and not a closed set.
 */
public final class LineKind {
    /** Once per turn of a pulley. */
    public static final String TURN = "turn";

    /** Once per turn of a belt. */
    public static final String BELT = "belt";

    /** Balls passing a spot on the outer race. */
    public static final String BEARING_OUTER_RING = "bearing-outer-ring";

    /** Balls passing a spot on the inner race. */
    public static final String BEARING_INNER_RING = "bearing-inner-ring";

    /** A spot on a ball striking both races: twice the ball's spin. */
    public static final String ROLLING_ELEMENT = "rolling-element";

    /** Once per turn of a bearing's cage. */
    public static final String CAGE = "cage";

    /** Once per working cycle of one cylinder. */
    public static final String CYCLE = "cycle";

    /** Once per firing. */
    public static final String FIRING = "firing";

    private LineKind() {}
}
