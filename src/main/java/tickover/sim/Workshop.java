package tickover.sim;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import tickover.drive.Vehicle;

/**
 * Draws visits as workshops would hand them in, everything from one seed: engine, drive, what is
 * wrong, what was recorded, and how badly.
 *
 * <p>Seeds from {@link #TUNING_SEEDS_FROM} are for developing; seeds from {@link #TEST_SEEDS_FROM}
 * are for checking and must never be looked at while something is adjusted.
 */
public final class Workshop {
    /** First seed on which an analysis may be adjusted. */
    public static final long TUNING_SEEDS_FROM = 1;

    /** First seed that is kept for checking. */
    public static final long TEST_SEEDS_FROM = 1_000_001;

    private static final int DRIVE_TRIES = 400;

    private Workshop() {}

    /**
     * Draws a visit.
     *
     * @param seed any number; the same number gives the same visit
     * @return the visit
     */
    public static SimulatedVisit visit(long seed) {
        return visit(seed, WorkshopCase.any());
    }

    /**
     * Draws a visit of a wanted kind.
     *
     * @param seed any number; the same number gives the same visit
     * @param wanted what it has to be like
     * @return the visit
     * @throws IllegalArgumentException if no drive can have the wanted fault, such as a tick in a
     *     pulley without bearing
     */
    public static SimulatedVisit visit(long seed, WorkshopCase wanted) {
        Case drawn = Case.of(seed, wanted);
        Trouble trouble = drawn.trouble;
        List<SimulatedCapture> captures =
                drawn.captures(trouble, drawn.root.branch("visit"), drawn.root.branch("plan"));
        Draw paper = drawn.root.branch("paper");
        Vehicle vehicle = drawn.vehicle(paper);
        LocalDateTime date = date(paper);
        return new SimulatedVisit(
                new UUID(paper.anyLong(), paper.anyLong()).toString(),
                date,
                paper.whole(12_000, 320_000),
                VisitPlan.complaint(trouble, paper),
                vehicle,
                captures,
                new Truth(trouble.component(), trouble.kind(), trouble.severityRatio()));
    }

    /**
     * Draws an earlier visit of the vehicle that comes in at {@link #visit(long)}, when nothing was
     * wrong with it: the same engine, drive and probe, other points.
     *
     * @param seed as for the later visit
     * @param years how long before, &gt;= 1
     * @return the visit
     */
    public static SimulatedVisit before(long seed, int years) {
        Case drawn = Case.of(seed, WorkshopCase.any());
        List<SimulatedCapture> captures =
                drawn.captures(
                        Trouble.NONE,
                        drawn.root.branch("visit-before", years),
                        drawn.root.branch("plan-before", years));
        Draw paper = drawn.root.branch("paper");
        Vehicle vehicle = drawn.vehicle(paper);
        LocalDateTime date = date(paper).minusYears(years);
        Draw ids = drawn.root.branch("paper-before", years);
        return new SimulatedVisit(
                new UUID(ids.anyLong(), ids.anyLong()).toString(),
                date,
                ids.whole(12_000, 320_000),
                "service visit, no complaint",
                vehicle,
                captures,
                new Truth(Trouble.NONE.component(), Trouble.NONE.kind(), 0));
    }

    /** A vehicle with what is wrong with it and the probe that is held to it. */
    private record Case(Draw root, TrueDrive drive, Trouble trouble, Kit kit) {
        static Case of(long seed, WorkshopCase wanted) {
            Draw root = new Draw(seed);
            FaultKind kind = TroubleDraw.kind(root.branch("kind"), wanted);
            TrueDrive drive = Workshop.drive(root, kind, wanted);
            Trouble trouble = TroubleDraw.draw(root.branch("trouble"), drive, kind, wanted);
            return new Case(root, drive, trouble, KitDraw.draw(root.branch("kit"), wanted, drive));
        }

        List<SimulatedCapture> captures(Trouble present, Draw visit, Draw plan) {
            Machine machine = new Machine(drive, present, kit, root.branch("vehicle"), visit);
            List<SimulatedCapture> out = new ArrayList<>();
            for (CapturePlan p : VisitPlan.draw(drive, present, machine.points(), plan)) {
                out.add(machine.capture(p));
            }
            return out;
        }

        Vehicle vehicle(Draw paper) {
            String unit = String.format(Locale.ROOT, "ML-%02d", paper.whole(1, 60));
            return new HandedIn(drive, root.branch("handed-in"), trouble)
                    .vehicle(unit, "Mobile library");
        }
    }

    private static LocalDateTime date(Draw paper) {
        return LocalDateTime.of(2025, 1, 7, 8, 0)
                .plusDays(paper.whole(0, 600))
                .plusMinutes(paper.whole(0, 480));
    }

    private static TrueDrive drive(Draw root, FaultKind kind, WorkshopCase wanted) {
        for (int i = 0; i < DRIVE_TRIES; i++) {
            TrueDrive drive = DriveDraw.draw(root.branch("drive", i));
            if (TroubleDraw.fits(drive, kind, wanted)) {
                return drive;
            }
        }
        throw new IllegalArgumentException(
                "fault=" + kind + ", role=" + wanted.role().orElse(null) + ": no drive has both");
    }
}
