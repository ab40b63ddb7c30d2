package tickover.store;

import java.util.Objects;

/**
 * A visit folder, or a file of one, cannot be used. The message is one sentence that names the file
 * and the key or row, and says what would be right.
 */
public final class VisitFolderException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final String place;

    /**
     * Names what is wrong.
     *
     * @param place the file, with line, key or row
     * @param sentence what is wrong there, and what would be right
     */
    public VisitFolderException(String place, String sentence) {
        super(Wording.oneLine(place + ": " + sentence));
        this.place = Objects.requireNonNull(place, "place");
    }

    VisitFolderException(String place, String sentence, Throwable cause) {
        this(place, sentence);
        initCause(cause);
    }

    /**
     * Returns where it is wrong.
     *
     * @return the file, with line, key or row where known
     */
    public String place() {
        return place;
    }
}
