package tickover.session;

import java.util.Objects;
import java.util.function.Supplier;
import tickover.link.LinkException;

/** A port, a device or a recording failed, as one sentence that says which and what to do. */
public final class AcquisitionException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** Who has to mend it. */
    public enum Kind {
        /** The user: a port or a file that is not what it should be. */
        BAD_INPUT,
        /** The outside: a port or a disk. */
        OUTSIDE
    }

    private final Kind kind;

    /**
     * @param kind who has to mend it
     * @param message one sentence
     * @param cause what lies under it; null if nothing does
     */
    public AcquisitionException(Kind kind, String message, Throwable cause) {
        super(Objects.requireNonNull(message, "message"), cause);
        this.kind = Objects.requireNonNull(kind, "kind");
    }

    /**
     * Returns who has to mend it.
     *
     * @return the kind
     */
    public Kind kind() {
        return kind;
    }

    /** Runs work whose failures at a line or a file leave this package as one kind of exception. */
    static <T> T guard(Supplier<T> work) {
        try {
            return work.get();
        } catch (LinkException e) {
            throw of(e);
        }
    }

    private static AcquisitionException of(LinkException e) {
        Kind kind =
                switch (e.reason()) {
                    case BAD_RECORDING -> Kind.BAD_INPUT;
                    case NO_SUCH_PORT,
                            NO_PERMISSION,
                            BUSY,
                            NO_SUCH_SPEED,
                            GONE,
                            DISK_FULL,
                            FAILED ->
                            Kind.OUTSIDE;
                };
        return new AcquisitionException(kind, e.getMessage(), e);
    }
}
