package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import tickover.drive.DriveModel;

/** What the captures of one visit say of every suspect. Compute once, then rank or learn. */
public final class VisitEvidence {
    private final DriveModel drive;
    private final List<CaptureMeasurement> captures;
    private final List<SuspectClues> suspects;

    private VisitEvidence(
            DriveModel drive, List<CaptureMeasurement> captures, List<SuspectClues> suspects) {
        this.drive = drive;
        this.captures = captures;
        this.suspects = suspects;
    }

    /**
     * Gathers the evidence.
     *
     * @param drive the vehicle's drive
     * @param captures the visit's captures, measured; without any, only priors are left
     * @return the evidence
     */
    public static VisitEvidence of(DriveModel drive, List<CaptureMeasurement> captures) {
        Objects.requireNonNull(drive, "drive");
        List<CaptureMeasurement> copy = List.copyOf(captures);
        DriveModel refined = TurnFinder.refine(drive, copy);
        return new VisitEvidence(refined, copy, new ClueFinder(refined, copy).find());
    }

    DriveModel drive() {
        return drive;
    }

    List<CaptureMeasurement> captures() {
        return captures;
    }

    List<SuspectClues> suspects() {
        return suspects;
    }
}
