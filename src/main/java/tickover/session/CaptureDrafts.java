package tickover.session;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tickover.align.CapturePiece;
import tickover.align.SpeedSource;
import tickover.align.StreamGap;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;
import tickover.store.CaptureDraft;
import tickover.store.WrittenWav;

/**
 * Gives the pieces of captures the form in which a visit folder keeps them: one draft for each
 * stretch without a gap. The first is called after its capture, such as c03, the others c03-2,
 * c03-3.
 */
final class CaptureDrafts {
    private final String tachPulley;
    private final List<String> remarks;
    private final List<CaptureDraft> drafts = new ArrayList<>();
    private final Map<String, Integer> named = new HashMap<>();

    /**
     * @param tachPulley the pulley that carries the tach's mark
     * @param remarks gets a sentence for everything that was left out
     */
    CaptureDrafts(String tachPulley, List<String> remarks) {
        this.tachPulley = tachPulley;
        this.remarks = remarks;
    }

    List<CaptureDraft> drafts() {
        return drafts;
    }

    void add(CutCapture capture) {
        String name = String.format(Locale.ROOT, "c%02d", capture.number());
        List<CapturePiece> pieces = capture.pieces().pieces();
        for (int i = 0; i < pieces.size(); i++) {
            int nth = named.merge(name, 1, Integer::sum);
            String id = nth == 1 ? name : name + "-" + nth;
            CapturePiece piece = pieces.get(i);
            WrittenWav samples = capture.spill().written(piece.stretch(), piece.rateHz());
            drafts.add(
                    CaptureDraft.of(capture.capture().labelled(id), samples, piece.speed())
                            .markedOn(tachPulley)
                            .noted(notes(id, piece, i < pieces.size() - 1)));
        }
        say(name, capture);
    }

    private static List<QualityNote> notes(String id, CapturePiece piece, boolean brokeOff) {
        List<QualityNote> notes = new ArrayList<>();
        if (!piece.atLimit().isEmpty()) {
            notes.add(
                    new QualityNote(
                            id,
                            QualityProblem.CLIPPED,
                            ranges(piece.atLimit()),
                            "The probe says that it was at the end of its range here."));
        }
        if (!piece.edgeGaps().isEmpty()) {
            notes.add(
                    new QualityNote(
                            id,
                            QualityProblem.TACH_DROPOUT,
                            ranges(piece.edgeGaps()),
                            piece.missedEdges() + " tach edges were lost here."));
        }
        if (brokeOff) {
            double rateHz = piece.rateHz();
            double endS = piece.durationS();
            notes.add(
                    new QualityNote(
                            id,
                            QualityProblem.MISSING_SAMPLES,
                            List.of(new TimeRange(endS - 1 / rateHz, endS)),
                            "Samples are missing after this; what follows is a capture of its"
                                    + " own."));
        }
        return notes;
    }

    private static List<TimeRange> ranges(List<CapturePiece.Stretch> stretches) {
        return stretches.stream()
                .filter(s -> s.toS() > Math.max(0, s.fromS()))
                .map(s -> new TimeRange(Math.max(0, s.fromS()), s.toS()))
                .toList();
    }

    /** How many samples the gaps hold, as far as that can be known. */
    static String missing(List<StreamGap> gaps) {
        long known = gaps.stream().mapToLong(g -> g.missing().orElse(0)).sum();
        boolean all = gaps.stream().allMatch(g -> g.missing().isPresent());
        String samples = known == 1 ? "1 sample is missing" : known + " samples are missing";
        if (all) {
            return known > 0 ? samples : "no sample is missing, but a clock stepped";
        }
        return known > 0 ? "at least " + samples : "how many samples are missing is not known";
    }

    private void say(String name, CutCapture capture) {
        String what = name + " at " + capture.capture().point();
        int pieces = capture.pieces().pieces().size();
        if (pieces > 1) {
            remarks.add(
                    String.format(
                            Locale.ROOT,
                            "%s has gaps (%s) and became %d captures; nothing is joined across a"
                                    + " gap.",
                            what,
                            missing(capture.pieces().gaps()),
                            pieces));
        }
        if (capture.goesOn()) {
            remarks.add(
                    name
                            + "-"
                            + (named.getOrDefault(name, 0) + 1)
                            + " goes on where the capture before it ends, without a gap: "
                            + what
                            + " is too long to be analysed at once.");
        }
        double lostS = capture.pieces().tooShortS().stream().mapToDouble(s -> s).sum();
        if (!capture.pieces().tooShortS().isEmpty()) {
            remarks.add(
                    String.format(
                            Locale.ROOT,
                            "%s: %.1f s lie in stretches too short to use.",
                            what,
                            lostS));
        }
        if (pieces == 0 && capture.pieces().tooShortS().isEmpty()) {
            remarks.add(what + " holds no samples at all.");
        }
        Set<SpeedSource.Kind> kinds = EnumSet.noneOf(SpeedSource.Kind.class);
        capture.pieces().pieces().forEach(p -> kinds.add(p.speed().kind()));
        if (kinds.contains(SpeedSource.Kind.TACH) && kinds.size() > 1) {
            remarks.add(
                    what
                            + ": the tach was silent in a part, which takes its speed from "
                            + (kinds.contains(SpeedSource.Kind.OBD)
                                    ? "the adapter"
                                    : "the vibration")
                            + ".");
        }
    }
}
