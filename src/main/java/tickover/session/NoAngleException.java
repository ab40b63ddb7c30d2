package tickover.session;

import java.util.Objects;

/** Crank angle cannot be found in a capture, so that nothing can be said by order. */
public final class NoAngleException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /**
     * Says why.
     *
     * @param capture the capture's id
     * @param why one sentence
     */
    public NoAngleException(String capture, String why) {
        super("capture " + Objects.requireNonNull(capture, "capture") + ": " + why);
    }
}
