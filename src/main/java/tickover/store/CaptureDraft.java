package tickover.store;

import java.util.List;
import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.align.SpeedSource;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.order.TimeRange;

/**
 * A capture to be written: its WAV file is named after the label's id.
 *
 * @param label what it is of; the id may hold no path separator
 * @param samples to be written as WAV
 * @param speed to be written as CSV
 * @param tachPulley the pulley that carries the tach's mark; counts only for a tach
 * @param quality what was noted of the signal while it was recorded, with problems out of {@link
 *     QualityProblem#recorded}; each is written once per time range
 */
public record CaptureDraft(
        CaptureLabel label,
        DraftSamples samples,
        SpeedSource speed,
        String tachPulley,
        List<QualityNote> quality) {
    public CaptureDraft {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(samples, "samples");
        Objects.requireNonNull(speed, "speed");
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
    }

    /**
     * A capture in 32-bit floats of 1 m/s², with any tach on the crank.
     *
     * @param label what it is of
     * @param signal samples and speed
     * @return the draft
     */
    public static CaptureDraft of(CaptureLabel label, CaptureSignal signal) {
        DraftSamples samples = new DraftSamples.Held(signal, WavEncoding.FLOAT_32, 1.0);
        return new CaptureDraft(label, samples, signal.speed(), "crank", List.of());
    }

    /**
     * A capture whose samples are in a file already, with any tach on the crank.
     *
     * @param label what it is of
     * @param samples the file
     * @param speed what is known of engine speed
     * @return the draft
     */
    public static CaptureDraft of(CaptureLabel label, WrittenWav samples, SpeedSource speed) {
        return new CaptureDraft(label, samples, speed, "crank", List.of());
    }

    /**
     * Chooses how samples in memory are stored.
     *
     * @param encoding the encoding
     * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     * @return a changed copy
     * @throws IllegalStateException if the samples are in a file already
     */
    public CaptureDraft encodedAs(WavEncoding encoding, double scaleMps2) {
        if (!(samples instanceof DraftSamples.Held held)) {
            throw new IllegalStateException("samples of " + label.id() + " are encoded already");
        }
        DraftSamples stored = new DraftSamples.Held(held.signal(), encoding, scaleMps2);
        return new CaptureDraft(label, stored, speed, tachPulley, quality);
    }

    /**
     * Says which pulley carries the tach's mark.
     *
     * @param pulley its name
     * @return a changed copy
     */
    public CaptureDraft markedOn(String pulley) {
        return new CaptureDraft(label, samples, speed, pulley, quality);
    }

    /**
     * Says what was noted of the signal while it was recorded.
     *
     * @param notes as in {@link #quality}; the captures that they name do not count
     * @return a changed copy
     */
    public CaptureDraft noted(List<QualityNote> notes) {
        return new CaptureDraft(label, samples, speed, tachPulley, notes);
    }
}
