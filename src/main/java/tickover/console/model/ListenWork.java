package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import tickover.drive.PartWords;
import tickover.session.ListeningFile;
import tickover.session.Loudness;
import tickover.session.NotHeardException;
import tickover.session.PartAudio;
import tickover.session.PartListening;
import tickover.session.TrackedCapture;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/** Takes a part's sound out of captures beside the screen's thread. Immutable. */
final class ListenWork {
    private static final int X_CHANNEL = 0;

    private final String part;
    private final PartListening.How how;
    private final Loudness.Keep keep;

    /**
     * Sounds that were taken out: one, or the earlier and the later one.
     *
     * @param part whose they are
     * @param sounds earlier first
     * @param gains one for each, full scale per m/s²
     * @param beforeWords where the earlier one is from, or why there is none
     * @param afterWords where the later one is from
     */
    record Made(
            String part,
            List<PartAudio> sounds,
            List<Double> gains,
            String beforeWords,
            String afterWords) {
        Made {
            Objects.requireNonNull(part, "part");
            sounds = List.copyOf(sounds);
            gains = List.copyOf(gains);
            Objects.requireNonNull(beforeWords, "beforeWords");
            Objects.requireNonNull(afterWords, "afterWords");
        }

        boolean hasBefore() {
            return sounds.size() == 2;
        }

        private List<Integer> chosen(ListenModel.What what) {
            int last = sounds.size() - 1;
            return switch (what) {
                case BEFORE -> List.of(0);
                case AFTER -> List.of(last);
                case BOTH -> hasBefore() ? List.of(0, 1) : List.of(last);
            };
        }

        double rateHz(ListenModel.What what) {
            return sounds.get(chosen(what).get(0)).sampleRateHz();
        }

        /** 1 at full scale. */
        double[] samples(ListenModel.What what) {
            List<Integer> which = chosen(what);
            return ListeningFile.inARow(
                    which.stream().map(sounds::get).toList(),
                    which.stream().map(gains::get).toList());
        }

        List<String> notes() {
            List<String> out = new ArrayList<>();
            for (int i = 0; i < sounds.size(); i++) {
                String which = hasBefore() ? (i == 0 ? "Before: " : "After: ") : "";
                for (String note : sounds.get(i).notes()) {
                    out.add(which + note);
                }
            }
            return out;
        }
    }

    ListenWork(String part, PartListening.How how, Loudness.Keep keep) {
        this.part = part;
        this.how = how;
        this.keep = keep;
    }

    /**
     * Takes the sounds out.
     *
     * @param earlier one visit or none
     * @throws NotHeardException if nothing of the part is heard in the later capture
     */
    Made of(Visit visit, VisitCapture capture, List<Visit> earlier) {
        List<PartAudio> sounds = new ArrayList<>();
        List<String> where = new ArrayList<>();
        String whyNot = "No earlier visit is held against it.";
        for (Visit before : earlier) {
            Optional<VisitCapture> like = ListenSource.like(before, capture.label());
            if (like.isEmpty()) {
                whyNot =
                        "The earlier visit has no capture at "
                                + PartWords.the(capture.label().point())
                                + ".";
                continue;
            }
            try {
                sounds.add(sound(before, like.get(), ""));
                where.add(words(before, like.get()));
            } catch (NotHeardException e) {
                whyNot = "Not heard in the earlier visit. " + e.getMessage();
            }
        }
        // The later capture is listened to in the rhythm of the earlier one.
        sounds.add(sound(visit, capture, sounds.isEmpty() ? "" : sounds.get(0).rhythm()));
        where.add(words(visit, capture));
        if (sounds.size() == 2 && sounds.get(0).sampleRateHz() != sounds.get(1).sampleRateHz()) {
            whyNot = "The earlier visit was sampled at another rate.";
            sounds.remove(0);
            where.remove(0);
        }
        List<Double> gains = Loudness.gains(sounds, keep);
        List<String> told = new ArrayList<>();
        for (int i = 0; i < sounds.size(); i++) {
            told.add(
                    String.format(
                            Locale.ROOT,
                            "%s: %s m/s² rms, gain %+.1f dB",
                            where.get(i),
                            Numbers.three(sounds.get(i).rmsMps2()),
                            Loudness.gainDb(gains.get(i))));
        }
        boolean pair = sounds.size() == 2;
        return new Made(part, sounds, gains, pair ? told.get(0) : whyNot, told.get(pair ? 1 : 0));
    }

    private PartAudio sound(Visit visit, VisitCapture capture, String rhythm) {
        return PartListening.of(
                visit.vehicle(),
                TrackedCapture.of(visit.vehicle(), capture),
                X_CHANNEL,
                part,
                how,
                rhythm);
    }

    private String words(Visit visit, VisitCapture capture) {
        return part
                + ", "
                + FindingsModel.WHEN.format(visit.date())
                + ", "
                + ListenSource.words(capture.label());
    }
}
