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

    /**
     * Returns what the ear would name: the component at whose point the vibration is strongest.
     *
     * @return a component, or {@code none} if it is loudest where no component is
     */
    public String loudest() {
        String loudest = Candidate.NONE;
        double most = 0;
        for (CaptureMeasurement c : new Comparison(captures).ordinary()) {
            if (c.summary().overallRmsMps2() > most) {
                most = c.summary().overallRmsMps2();
                loudest = c.label().point();
            }
        }
        for (SuspectClues s : suspects) {
            if (s.suspect().ownPoint().equals(loudest)) {
                return s.suspect().component();
            }
        }
        return Candidate.NONE;
    }

    /**
     * Returns whether a component was recorded where it is strongest.
     *
     * @param component its name
     * @return true if so, and for what has no such point
     */
    public boolean isRecordedAt(String component) {
        Comparison comparison = new Comparison(captures);
        return suspects.stream()
                .filter(s -> s.suspect().component().equals(component))
                .allMatch(
                        s ->
                                s.suspect().ownPoint().isEmpty()
                                        || !comparison
                                                .ordinaryAt(s.suspect().ownPoint())
                                                .isEmpty());
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
