package tickover.session;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.Mount;
import tickover.diagnose.PartLevel;
import tickover.diagnose.Regime;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.Vehicle;
import tickover.store.CaptureDraft;
import tickover.store.Visit;
import tickover.store.VisitDraft;
import tickover.store.VisitFolder;

/** Visits that take next to no room, and results of them. What they say means nothing. */
final class SmallVisits {
    static final LocalDateTime FIRST = LocalDateTime.parse("2026-03-04T09:30:00");

    private static final CaptureLabel LABEL =
            new CaptureLabel("c01", "idler", "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);

    private SmallVisits() {}

    /** Visits of two vehicles, a day apart, always with the same ids. */
    static List<Visit> write(Path dir, int count) {
        List<Visit> visits = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Vehicle vehicle =
                    new Vehicle("ML-0" + i % 2, "", Engine.of(4, 4), List.of(), List.of());
            CaptureSignal signal =
                    new CaptureSignal(8000, new double[][] {{i, 0, 1, 0}}, new NoSpeed());
            VisitDraft draft =
                    VisitDraft.of(
                                    vehicle,
                                    FIRST.plusDays(i),
                                    List.of(CaptureDraft.of(LABEL, signal)))
                            .withId(UUID.nameUUIDFromBytes(new byte[] {(byte) i}));
            visits.add(VisitFolder.write(draft, dir.resolve("visit-" + i)));
        }
        return visits;
    }

    static VisitResult result(double levelMps2, String version) {
        return new VisitResult(
                new Findings(
                        levelMps2 > 5 ? Verdict.UNCLEAR : Verdict.NONE,
                        List.of(new Candidate(Candidate.NONE, Fault.NONE, 1, List.of())),
                        List.of(),
                        List.of()),
                List.of(new CaptureSummary(LABEL, "vibration", 0.1, 780, 770, 790, levelMps2)),
                List.of(new PartLevel("engine", "c01", levelMps2, 0.1, List.of())),
                version,
                "");
    }
}
