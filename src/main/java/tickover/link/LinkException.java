package tickover.link;

import java.util.Objects;

/** The outside failed: a port, a device, or the disk under a recording. */
public final class LinkException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** What failed. */
    public enum Reason {
        /** There is no such port. */
        NO_SUCH_PORT,
        /** The user may not open it. */
        NO_PERMISSION,
        /** Another program has it. */
        BUSY,
        /** The port cannot run at the speed that was asked for. */
        NO_SUCH_SPEED,
        /** The device was unplugged, or the line was closed. */
        GONE,
        /** The disk is full. */
        DISK_FULL,
        /** A file is not a recording, or cannot be read or written. */
        BAD_RECORDING,
        /** Anything else. */
        FAILED
    }

    private final Reason reason;

    /**
     * @param reason what failed
     * @param message one sentence: which port or file, and what to do
     * @param cause what lies under it; null if nothing does
     */
    public LinkException(Reason reason, String message, Throwable cause) {
        super(Objects.requireNonNull(message, "message"), cause);
        this.reason = Objects.requireNonNull(reason, "reason");
    }

    /**
     * Returns what failed.
     *
     * @return the reason
     */
    public Reason reason() {
        return reason;
    }
}
