package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchTake;
import tickover.diagnose.BenchVerdict;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;
import tickover.report.BenchWords;
import tickover.session.BenchRun;
import tickover.session.NoAngleException;
import tickover.store.VisitCapture;

/** Judges captures of the bench beside the screen's thread. Immutable. */
final class BenchWork {
    private final BenchRun run;
    private final BenchSetup.SpeedFrom speed;
    private final double rpm;

    /**
     * What came of it.
     *
     * @param results the part's; none where only a known-good part was tried
     * @param notes what has to be known beside it, one sentence each
     */
    record Told(List<BenchResult> results, List<String> notes) {}

    BenchWork(BearingGeometry geometry, Ring ring, BenchSetup.SpeedFrom speed, double rpm) {
        this.run = new BenchRun(geometry, ring);
        this.speed = speed;
        this.rpm = rpm;
    }

    private BenchTake take(VisitCapture capture) {
        return switch (speed) {
            case TACH -> run.withTach(capture);
            case GIVEN -> run.atSpeed(capture, rpm);
            case FOUND -> run.findingSpeed(capture);
        };
    }

    /** Sees whether a known-good capture is of use: its speed, and that it can be judged. */
    Told tried(VisitCapture good) {
        try {
            BenchResult own = BenchRun.judge(take(good), List.of());
            boolean sound =
                    own.verdict() == BenchVerdict.HEALTHY || own.verdict() == BenchVerdict.UNCLEAR;
            return new Told(
                    List.of(),
                    sound
                            ? List.of()
                            : List.of(
                                    "Careful: the known-good part does not look it. "
                                            + BenchWords.headline(own)));
        } catch (NoAngleException e) {
            if (speed == BenchSetup.SpeedFrom.FOUND) {
                // It may yet be taken to turn like the part does.
                return new Told(List.of(), List.of());
            }
            throw e;
        }
    }

    Told judged(VisitCapture part, List<VisitCapture> goods) {
        BenchTake take = take(part);
        List<BenchTake> likes = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        for (VisitCapture good : goods) {
            try {
                likes.add(take(good));
            } catch (NoAngleException e) {
                likes.add(run.atSpeed(good, take.meanRpm()));
                notes.add(
                        "The known-good part does not show its speed by itself; it is taken to"
                                + " turn like this one.");
            } catch (IllegalArgumentException e) {
                notes.add("A known-good capture is of no use: " + e.getMessage() + ".");
            }
        }
        return new Told(List.of(BenchRun.judge(take, likes)), notes);
    }
}
