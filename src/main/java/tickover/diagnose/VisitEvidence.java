package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import tickover.drive.DriveModel;

/** What the captures of one visit say of every suspect. Compute once, then rank or learn. */
public final class VisitEvidence {
    private static final double KEPT_SHARE = 0.7;

    private final DriveModel given;
    private final DriveModel drive;
    private final List<CaptureMeasurement> captures;
    private final List<SuspectClues> suspects;

    private VisitEvidence(
            DriveModel given,
            DriveModel drive,
            List<CaptureMeasurement> captures,
            List<SuspectClues> suspects) {
        this.given = given;
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
        return new VisitEvidence(drive, refined, copy, new ClueFinder(refined, copy).find());
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

    /**
     * Gathers the evidence again with some points left out, as if the mechanic had not been there.
     *
     * <p>What is learned from simulated visits rests on their whims, such as which points they
     * have; a visit seen once more without some of them is as good as another one, nearly, and
     * costs no further recording.
     *
     * @param seed decides which points stay: each with a chance of {@value #KEPT_SHARE}
     * @return the evidence of the rest, or empty if fewer than two points are left
     */
    public Optional<VisitEvidence> partial(long seed) {
        Random random = new Random(seed);
        Set<String> kept = new TreeSet<>();
        for (CaptureMeasurement c : captures) {
            kept.add(c.label().point());
        }
        kept.removeIf(point -> random.nextDouble() >= KEPT_SHARE);
        return kept.size() < 2
                ? Optional.empty()
                : Optional.of(
                        of(
                                given,
                                captures.stream()
                                        .filter(c -> kept.contains(c.label().point()))
                                        .toList()));
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
