package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.order.TimeRange;

/**
 * Judges what of a capture can be trusted: clipping, lost contact, knocks, tilt, a changed hold,
 * missing samples, a tach that dropped out, a band that the mount does not carry, too short.
 *
 * <p>In: samples of every channel, what was noted while they were recorded, and where crank angle
 * is not known. Out: notes with time ranges, and the ranges that nothing is concluded from. Cost:
 * O(samples). {@code docs/quality.md} gives the limits with their reasons.
 */
public final class SignalQuality {
    /**
     * What lies this near a range that is ruled out is ruled out too, s: the longest reach of the
     * angular resampler (18 steps of 1/256 turn at 250 rpm) and of the lowest envelope band.
     */
    static final double GUARD_S = 0.02;

    /** Ranges of one kind closer than this are one, s: a handful of working cycles. */
    private static final double JOIN_S = 0.25;

    /** Below this length few turns are averaged, s. */
    private static final double SHORT_S = 3.0;

    /** Speed that is missing for less than this at an end is not worth a word, s. */
    private static final double ENDS_S = 0.25;

    /** Fewer blocks give no usual level, 0.2 s. */
    private static final int FEWEST_BLOCKS = 4;

    /**
     * With clipping in more than this share of a capture, leaving it out would leave too little.
     */
    private static final double PERVASIVE_RATIO = 0.5;

    private final List<QualityNote> notes;
    private final List<TimeRange> ruledOut;
    private final double durationS;

    private SignalQuality(List<QualityNote> notes, double durationS) {
        this.notes = List.copyOf(notes);
        this.durationS = durationS;
        List<TimeRange> bad = new ArrayList<>();
        for (QualityNote note : notes) {
            if (note.problem().rulesOut()) {
                bad.addAll(note.ranges());
            }
        }
        this.ruledOut = TimeRange.joined(bad, 2 * GUARD_S);
    }

    /**
     * Returns what is worth knowing.
     *
     * @return notes, empty if nothing is wrong
     */
    public List<QualityNote> notes() {
        return notes;
    }

    /**
     * Returns the stretches that nothing is concluded from, without their {@link #GUARD_S}.
     *
     * @return rising and apart, s
     */
    public List<TimeRange> ruledOut() {
        return ruledOut;
    }

    /**
     * Returns how much of the capture is left.
     *
     * @return s
     */
    public double usableS() {
        return durationS - TimeRange.totalS(ruledOut);
    }

    /** Whether all of a stretch can be trusted, the guard included. */
    boolean usable(double fromS, double toS) {
        for (TimeRange r : ruledOut) {
            if (r.meets(fromS - GUARD_S, toS + GUARD_S)) {
                return false;
            }
        }
        return true;
    }

    /**
     * Judges a capture.
     *
     * @param input samples, angle and what was noted
     * @return the judgement
     */
    public static SignalQuality of(CaptureInput input) {
        Objects.requireNonNull(input, "input");
        return new Judge(input).judge();
    }

    /** Collects the notes of one capture. */
    private static final class Judge {
        private final CaptureInput input;
        private final String id;
        private final double durationS;
        private final List<QualityNote> notes = new ArrayList<>();

        /** What is known to be bad from outside the samples; the detectors do not look there. */
        private final List<TimeRange> known = new ArrayList<>();

        Judge(CaptureInput input) {
            this.input = input;
            this.id = input.label().id();
            this.durationS = input.durationS();
        }

        SignalQuality judge() {
            recorded();
            speed();
            if (durationS < SHORT_S) {
                whole(
                        QualityProblem.SHORT,
                        QualityWords.say(
                                "Only %.1f s long: record at least 8 s so that slow parts turn"
                                        + " often enough.",
                                durationS));
            }
            BlockLevels levels = BlockLevels.of(input.accelMps2(), input.sampleRateHz());
            if (levels.count() >= FEWEST_BLOCKS) {
                samples(levels);
            }
            return new SignalQuality(notes, durationS);
        }

        private void whole(QualityProblem problem, String text) {
            notes.add(QualityNote.ofWhole(id, problem, text));
        }

        /** Adds a note about ranges, if there are any that were not known before. */
        private void found(QualityProblem problem, List<TimeRange> ranges, String text) {
            List<TimeRange> unknown = new ArrayList<>();
            for (TimeRange r : ranges) {
                if (known.stream().noneMatch(k -> k.meets(r.fromS(), r.toS()))) {
                    unknown.add(inside(r));
                }
            }
            if (!unknown.isEmpty()) {
                List<TimeRange> joined = TimeRange.joined(unknown, JOIN_S);
                notes.add(
                        new QualityNote(
                                id,
                                problem,
                                joined,
                                QualityWords.say(text, QualityWords.when(joined))));
            }
        }

        private TimeRange inside(TimeRange r) {
            double fromS = Math.max(0, Math.min(durationS, r.fromS()));
            return new TimeRange(fromS, Math.max(fromS, Math.min(durationS, r.toS())));
        }

        private void recorded() {
            for (QualityNote note : input.recorded()) {
                List<TimeRange> ranges =
                        note.ranges().stream()
                                .filter(r -> r.fromS() < durationS)
                                .map(this::inside)
                                .toList();
                if (ranges.isEmpty() && !note.ranges().isEmpty()) {
                    continue;
                }
                String text = note.text();
                if (text.isEmpty()) {
                    text =
                            ranges.isEmpty()
                                    ? "Noted while it was recorded."
                                    : "Noted while it was recorded, "
                                            + QualityWords.when(ranges)
                                            + ".";
                }
                notes.add(new QualityNote(id, note.problem(), ranges, text));
                if (note.problem().rulesOut()) {
                    known.addAll(ranges);
                }
            }
        }

        private void speed() {
            found(
                    QualityProblem.TACH_DROPOUT,
                    input.angleUnknown(),
                    "The tach gave no pulses %s, so the crank angle is a guess there and nothing is"
                            + " concluded from it: check the mark and the sensor's aim.");
            List<TimeRange> ends = new ArrayList<>();
            if (input.angle().startS() > ENDS_S) {
                ends.add(new TimeRange(0, Math.min(durationS, input.angle().startS())));
            }
            if (input.angle().endS() < durationS - ENDS_S) {
                ends.add(new TimeRange(Math.max(0, input.angle().endS()), durationS));
            }
            if (!ends.isEmpty()) {
                notes.add(
                        new QualityNote(
                                id,
                                QualityProblem.NO_SPEED,
                                ends,
                                "Engine speed is not known "
                                        + QualityWords.when(ends)
                                        + "; only the rest is used."));
            }
        }

        private void samples(BlockLevels levels) {
            boolean steady = input.label().regime() != Regime.SWEEP;
            clipping();
            found(
                    QualityProblem.LOST_CONTACT,
                    ContactCheck.lost(levels, input.angle(), steady),
                    "The probe lost contact %s; nothing is concluded from there.");
            found(
                    QualityProblem.KNOCK,
                    ContactCheck.knocks(levels, steady),
                    "Something knocked against the probe or the engine %s; nothing is concluded"
                            + " from there.");
            found(
                    QualityProblem.TILT,
                    HoldCheck.tilts(input.accelMps2(), input.sampleRateHz(), soFar()),
                    "The probe was turned by 15 degrees or more %s; what it measured before and"
                            + " after does not quite belong together.");
            if (steady) {
                found(
                        QualityProblem.MOUNT_CHANGE,
                        HoldCheck.changes(levels, soFar()),
                        "Treble against bass is another %s than before, by a factor of two or"
                                + " more: the probe was held differently, or a load came on or"
                                + " went off.");
            }
        }

        private List<TimeRange> soFar() {
            return new SignalQuality(notes, durationS).ruledOut;
        }

        private void clipping() {
            ClippingCheck check = ClippingCheck.of(input.accelMps2(), input.sampleRateHz());
            List<TimeRange> ranges = TimeRange.joined(check.ranges(), JOIN_S);
            if (TimeRange.totalS(ranges) > PERVASIVE_RATIO * durationS) {
                whole(
                        QualityProblem.CLIPPED,
                        QualityWords.say(
                                "%.1f %% of the samples, all along the capture, are at the end of"
                                    + " the sensor's range, so its levels read low: use a larger"
                                    + " range or a quieter spot near by, then repeat.",
                                100 * check.ratio()));
            } else {
                found(
                        QualityProblem.CLIPPED,
                        ranges,
                        "The sensor was driven to the end of its range %s; nothing is concluded"
                                + " from there. Use a larger range or a quieter spot near by.");
            }
        }
    }
}
