package tickover.cli;

import java.util.List;
import tickover.drive.PartWords;
import tickover.store.VisitCapture;

/**
 * A capture that a command named.
 *
 * @param of its visit
 * @param capture the capture
 */
record CaptureHandle(VisitHandle of, VisitCapture capture) {
    private static final char MARK = '#';

    /** True if a word names a capture rather than a visit. */
    static boolean isNamedBy(String word) {
        return word.indexOf(MARK) >= 0;
    }

    /**
     * Finds a capture.
     *
     * @param word {@code VISIT#CAPTURE}; the visit alone if it has only one capture
     * @param visits where visits are found
     */
    static CaptureHandle find(String word, Visits visits) {
        int at = word.lastIndexOf(MARK);
        String visitName = at < 0 ? word : word.substring(0, at);
        VisitHandle visit = visits.find(visitName);
        List<String> known = visit.visit().captures().stream().map(c -> c.label().id()).toList();
        if (at < 0) {
            if (known.size() == 1) {
                return new CaptureHandle(visit, visit.visit().captures().get(0));
            }
            throw CliException.badInput(
                    "'"
                            + word
                            + "' names a visit; name one capture of it, such as "
                            + word
                            + MARK
                            + known.get(0));
        }
        String id = word.substring(at + 1);
        return visit.visit()
                .capture(id)
                .map(c -> new CaptureHandle(visit, c))
                .orElseThrow(
                        () ->
                                CliException.badInput(
                                        "'"
                                                + visitName
                                                + "' has no capture "
                                                + id
                                                + "; it has "
                                                + String.join(", ", known)));
    }

    /** One line that names the capture to a person. */
    String title() {
        return of.title()
                + ", capture "
                + capture.label().id()
                + " at "
                + PartWords.the(capture.label().point())
                + " ("
                + capture.label().regime().word()
                + ", "
                + capture.label().condition()
                + ")";
    }
}
