package tickover.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Objects;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

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
        /** The files may not be read or written. */
        NO_PERMISSION,
        /** A folder to write to has something in it already. */
        FOLDER_NOT_EMPTY,
        /** A visit of the same id but with other content is in the log. */
        OTHER_CONTENT,
        /** There is no such visit in the log. */
        NO_SUCH_VISIT,
        /** There is no such vehicle in the log. */
        NO_SUCH_VEHICLE,
        /** There is no log in the folder. */
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

    static StoreException of(SQLException e, Path place) {
        SQLiteErrorCode code =
                e instanceof SQLiteException s ? s.getResultCode() : SQLiteErrorCode.UNKNOWN_ERROR;
        // The low byte of an extended code is the plain one.
        SQLiteErrorCode plain = SQLiteErrorCode.getErrorCode(code.code & 0xFF);
        return switch (plain) {
            case SQLITE_FULL ->
                    new StoreException(
                            Reason.DISK_FULL, "the disk of " + place + " is full; make room", e);
            case SQLITE_BUSY, SQLITE_LOCKED ->
                    new StoreException(
                            Reason.BUSY,
                            "another program is writing to "
                                    + place
                                    + "; try again when it is done",
                            e);
            case SQLITE_CORRUPT, SQLITE_NOTADB ->
                    new StoreException(
                            Reason.DAMAGED,
                            place + " is damaged or no Tickover log; put a backup in its place",
                            e);
            case SQLITE_PERM, SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_AUTH ->
                    new StoreException(
                            Reason.NO_PERMISSION,
                            place + " cannot be opened for writing; check its permissions",
                            e);
            default -> new StoreException(Reason.FAILED, place + " failed: " + e.getMessage(), e);
        };
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
