package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.align.CapturePiece;
import tickover.align.StreamGap;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;
import tickover.store.CaptureDraft;
import tickover.store.WavEncoding;

/** Gives the pieces of a capture the form in which a visit folder keeps them. */
final class CaptureDrafts {
    /** Far below the smallest step between two steps of 16 bits, 1/256. */
    private static final double ROUND_OFF = 1e-6;

    private CaptureDrafts() {}

    /**
     * One draft for each stretch without a gap. The first is called after its capture, such as c03,
     * the others c03-2, c03-3.
     *
     * @param capture the capture
     * @param tachPulley the pulley that carries the tach's mark
     * @param remarks gets a sentence for everything that was left out
     */
    static List<CaptureDraft> of(CutCapture capture, String tachPulley, List<String> remarks) {
        String name = String.format(Locale.ROOT, "c%02d", capture.number());
        List<CaptureDraft> drafts = new ArrayList<>();
        List<CapturePiece> pieces = capture.pieces().pieces();
        for (int i = 0; i < pieces.size(); i++) {
            String id = i == 0 ? name : name + "-" + (i + 1);
            CapturePiece piece = pieces.get(i);
            drafts.add(
                    encoded(
                                    CaptureDraft.of(capture.capture().labelled(id), piece.signal()),
                                    capture.probe().fullScaleMps2())
                            .markedOn(tachPulley)
                            .noted(notes(id, piece, i < pieces.size() - 1)));
        }
        say(name, capture, remarks);
        return drafts;
    }

    /** What came as whole numbers is kept as whole numbers, to the last count. */
    private static CaptureDraft encoded(CaptureDraft draft, double fullScaleMps2) {
        if (!(fullScaleMps2 > 0)) {
            return draft.encodedAs(WavEncoding.FLOAT_32, 1);
        }
        boolean fits = true;
        for (int c = 0; c < draft.signal().channels(); c++) {
            fits &= fitsSixteenBits(draft.signal().accelMps2(c), fullScaleMps2 / (1 << 15));
        }
        return draft.encodedAs(fits ? WavEncoding.PCM_16 : WavEncoding.PCM_24, fullScaleMps2);
    }

    /** A probe of 24 bits fills the steps between those of 16 within a few samples. */
    private static boolean fitsSixteenBits(double[] accelMps2, double stepMps2) {
        for (double a : accelMps2) {
            double steps = a / stepMps2;
            if (Math.abs(steps - Math.rint(steps)) > ROUND_OFF) {
                return false;
            }
        }
        return true;
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
            double rateHz = piece.signal().sampleRateHz();
            double endS = piece.signal().durationS();
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
                .filter(s -> s.fromS() >= 0 && s.toS() > s.fromS())
                .map(s -> new TimeRange(s.fromS(), s.toS()))
                .toList();
    }

    private static void say(String name, CutCapture capture, List<String> remarks) {
        long missing = 0;
        for (StreamGap gap : capture.pieces().gaps()) {
            missing += gap.missing().orElse(0);
        }
        int pieces = capture.pieces().pieces().size();
        if (pieces > 1) {
            remarks.add(
                    String.format(
                            Locale.ROOT,
                            "%s at %s has gaps (%d samples are missing) and became %d captures;"
                                    + " nothing is joined across a gap.",
                            name,
                            capture.capture().point(),
                            missing,
                            pieces));
        }
        if (!capture.pieces().tooShortS().isEmpty()) {
            double lostS = capture.pieces().tooShortS().stream().mapToDouble(s -> s).sum();
            remarks.add(
                    String.format(
                            Locale.ROOT,
                            "%s at %s: %.1f s lie in stretches too short to use.",
                            name,
                            capture.capture().point(),
                            lostS));
        }
        if (pieces == 0 && capture.pieces().tooShortS().isEmpty()) {
            remarks.add(name + " at " + capture.capture().point() + " holds no samples at all.");
        }
    }
}
