package tickover.cli;

import java.util.Locale;
import tickover.order.Ripple;

/** What to do with torsional ripple, by the word for it on the command line. */
enum RippleWord {
    SEEN(Ripple.AS_SEEN),
    IN(Ripple.LEFT_IN),
    OUT(Ripple.TAKEN_OUT);

    private final Ripple request;

    RippleWord(Ripple request) {
        this.request = request;
    }

    Ripple request() {
        return request;
    }

    /** The word as it is written on the command line. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
