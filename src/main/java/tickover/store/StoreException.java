package tickover.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.Objects;

/** The log or a disk under it failed, or refuses. The message is one sentence. */
public final class StoreException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** Why. */
    public enum Reason {
        /** A newer version of the program wrote the log. */
        NEWER_LOG,
        /** The file is no log of this program, or it is damaged. */
        DAMAGED,
        /** Another process holds the log for too long. */
        BUSY,
        /** The disk is full. */
        DISK_FULL,
        /** The files or tables may not be read or written. */
        NO_PERMISSION,
        /** No database server answers, or it lets nobody in under this name. */
        NO_SERVER,
        /** An address that no log can have. */
        BAD_ADDRESS,
        /** A folder to write to has something in it already. */
        FOLDER_NOT_EMPTY,
        /** A visit of the same id but with other content is in the log. */
        OTHER_CONTENT,
        /** There is no such visit in the log. */
        NO_SUCH_VISIT,
        /** There is no such vehicle in the log. */
        NO_SUCH_VEHICLE,
        /** There is no log in the folder or database. */
        NO_SUCH_LOG,
        /** The visit's raw recordings were removed by rule. */
        REMOVED,
        /** A file is no archive of a log, or cannot be read. */
        BAD_ARCHIVE,
        /** Anything else that the system reports. */
        FAILED
    }

    private final Reason reason;

    StoreException(Reason reason, String sentence) {
        this(reason, sentence, null);
    }

    StoreException(Reason reason, String sentence, Throwable cause) {
        super(Wording.oneLine(sentence), cause);
        this.reason = Objects.requireNonNull(reason, "reason");
    }

    static StoreException of(IOException e, Path place) {
        if (isDiskFull(e)) {
            return new StoreException(
                    Reason.DISK_FULL, "the disk of " + place + " is full; make room", e);
        }
        if (e instanceof AccessDeniedException || readOnly(e)) {
            return new StoreException(
                    Reason.NO_PERMISSION,
                    "no permission to write to " + place + "; choose another folder",
                    e);
        }
        return new StoreException(Reason.FAILED, place + " failed: " + Wording.reason(e), e);
    }

    private static boolean isDiskFull(IOException e) {
        String text = String.valueOf(e.getMessage());
        return text.contains("No space left")
                || text.contains("not enough space")
                || text.contains("Disk quota exceeded");
    }

    private static boolean readOnly(IOException e) {
        return e instanceof FileSystemException f
                && String.valueOf(f.getReason()).contains("Read-only file system");
    }

    /**
     * Returns why.
     *
     * @return the reason
     */
    public Reason reason() {
        return reason;
    }
}
