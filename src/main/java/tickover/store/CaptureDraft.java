package tickover.store;

import java.util.List;
import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;

/**
 * A capture to be written: its WAV file is named after the label's id.
 *
 * @param label what it is of; the id may hold no path separator
 * @param signal samples and speed, to be written as WAV and CSV
 * @param encoding how samples are stored
 * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
 * @param tachPulley the pulley that carries the tach's mark; counts only for a tach
 * @param quality what was noted of the signal while it was recorded, with problems out of {@link
 *     QualityProblem#recorded}; each is written once per time range
 */
public record CaptureDraft(
        CaptureLabel label,
        CaptureSignal signal,
        WavEncoding encoding,
        double scaleMps2,
        String tachPulley,
        List<QualityNote> quality) {
    public CaptureDraft {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(signal, "signal");
        Objects.requireNonNull(encoding, "encoding");
        Objects.requireNonNull(tachPulley, "tachPulley");
        quality = List.copyOf(quality);
        for (QualityNote note : quality) {
            if (!QualityProblem.recorded().contains(note.problem())) {
                throw new IllegalArgumentException(
                        "problem=" + note.problem() + ", need one of " + QualityProblem.recorded());
            }
            if (Wording.hasControl(note.text())) {
                throw new IllegalArgumentException("text=" + note.text() + ", need one line");
            }
            for (TimeRange r : note.ranges()) {
                if (!(r.fromS() >= 0 && r.toS() > r.fromS())) {
                    throw new IllegalArgumentException(
                            "range=" + r + ", need 0 <= fromS < toS, s from the first sample");
                }
            }
        }
        if (!(scaleMps2 > 0 && Double.isFinite(scaleMps2))) {
            throw new IllegalArgumentException("scaleMps2=" + scaleMps2 + ", need > 0 m/s²");
        }
    }

    /**
     * A capture in 32-bit floats of 1 m/s², with any tach on the crank.
     *
     * @param label what it is of
     * @param signal samples and speed
     * @return the draft
     */
    public static CaptureDraft of(CaptureLabel label, CaptureSignal signal) {
        return new CaptureDraft(label, signal, WavEncoding.FLOAT_32, 1.0, "crank", List.of());
    }

    /**
     * Chooses how samples are stored.
     *
     * @param value the encoding
     * @param valueScaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     * @return a changed copy
     */
    public CaptureDraft encodedAs(WavEncoding value, double valueScaleMps2) {
        return new CaptureDraft(label, signal, value, valueScaleMps2, tachPulley, quality);
    }

    /**
     * Says which pulley carries the tach's mark.
     *
     * @param pulley its name
     * @return a changed copy
     */
    public CaptureDraft markedOn(String pulley) {
        return new CaptureDraft(label, signal, encoding, scaleMps2, pulley, quality);
    }

    /**
     * Says what was noted of the signal while it was recorded.
     *
     * @param notes as in {@link #quality}; the captures that they name do not count
     * @return a changed copy
     */
    public CaptureDraft noted(List<QualityNote> notes) {
        return new CaptureDraft(label, signal, encoding, scaleMps2, tachPulley, notes);
    }
}
