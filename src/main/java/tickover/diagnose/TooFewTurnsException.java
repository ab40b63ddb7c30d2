package tickover.diagnose;

/** A capture in which the crank turned too few times to say anything about orders. */
public final class TooFewTurnsException extends Exception {
    private static final long serialVersionUID = 1;

    TooFewTurnsException(double turns, double least) {
        super(
                String.format(
                        java.util.Locale.ROOT,
                        "the crank turned only %.0f times, need at least %.0f turns",
                        turns,
                        least));
    }
}
