package tickover.link;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** Turns what the disk under a recording reports into a sentence. */
final class DiskTrouble {
    private DiskTrouble() {}

    /**
     * Says what failed. The system's own words may come in the user's language, so that the space
     * left is asked too.
     */
    static LinkException of(Path path, IOException cause, long neededBytes) {
        if (isFull(path, cause, neededBytes)) {
            return new LinkException(
                    LinkException.Reason.DISK_FULL,
                    "The disk is full: "
                            + path
                            + " keeps what was recorded until now; make room and start a new"
                            + " recording.",
                    cause);
        }
        return new LinkException(
                LinkException.Reason.FAILED,
                path
                        + " cannot be written ("
                        + cause.getMessage()
                        + "); it keeps what was recorded until now; check the disk and start a new"
                        + " recording.",
                cause);
    }

    private static boolean isFull(Path path, IOException cause, long neededBytes) {
        String words = String.valueOf(cause.getMessage()).toLowerCase(Locale.ROOT);
        if (words.contains("no space left")
                || words.contains("not enough space")
                || words.contains("quota exceeded")) {
            return true;
        }
        try {
            return Files.getFileStore(path).getUsableSpace() < neededBytes;
        } catch (IOException e) {
            cause.addSuppressed(e);
            return false;
        }
    }
}
