package tickover.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;

/**
 * Quality notes as they are read together: all of one capture, or one note that holds for several.
 *
 * @param captures the captures that it is about, separated by commas; may be empty
 * @param notes the notes, each with its problem and its sentence
 * @param advice one sentence that says why to repeat the capture; empty if repeating gains little
 */
public record QualityGroup(String captures, List<QualityNote> notes, String advice) {
    /** So much lost of the eight seconds that a capture should last makes it worth repeating, s. */
    private static final double WORTH_REPEATING_S = 1.0;

    public QualityGroup {
        Objects.requireNonNull(captures, "captures");
        Objects.requireNonNull(advice, "advice");
        notes = List.copyOf(notes);
    }

    /**
     * Groups notes: by capture what another try could do better, by sentence what it could not.
     *
     * @param notes of a visit
     * @return groups in the order in which their first notes come, those of captures before those
     *     of sentences
     */
    public static List<QualityGroup> of(List<QualityNote> notes) {
        Map<String, List<QualityNote>> byCapture = new LinkedHashMap<>();
        Map<String, List<QualityNote>> byText = new LinkedHashMap<>();
        for (QualityNote n : notes) {
            boolean lasting = n.problem().repeatBecause().isEmpty();
            (lasting ? byText : byCapture)
                    .computeIfAbsent(
                            lasting ? n.problem().word() + n.text() : n.capture(),
                            k -> new ArrayList<>())
                    .add(n);
        }
        List<QualityGroup> out = new ArrayList<>();
        byCapture.forEach(
                (capture, list) -> out.add(new QualityGroup(capture, list, advice(list))));
        byText.forEach(
                (text, list) ->
                        out.add(
                                new QualityGroup(
                                        String.join(
                                                ", ",
                                                list.stream()
                                                        .map(QualityNote::capture)
                                                        .distinct()
                                                        .toList()),
                                        list.subList(0, 1),
                                        "")));
        return out;
    }

    private static String advice(List<QualityNote> notes) {
        List<String> reasons =
                notes.stream()
                        .filter(QualityGroup::isWorthRepeating)
                        .map(n -> n.problem().repeatBecause())
                        .distinct()
                        .toList();
        return reasons.isEmpty()
                ? ""
                : "Repeat this capture, because " + String.join(", and because ", reasons) + ".";
    }

    private static boolean isWorthRepeating(QualityNote note) {
        return note.ranges().isEmpty()
                || note.problem() == QualityProblem.TILT
                || note.problem() == QualityProblem.MOUNT_CHANGE
                || TimeRange.totalS(note.ranges()) >= WORTH_REPEATING_S;
    }
}
