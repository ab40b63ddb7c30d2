package tickover.console.model;

import java.util.List;
import java.util.Optional;
import tickover.drive.DriveModel;

/** What was entered comes to: a drive that can be computed with, or sentences why not yet. */
public final class DriveOutcome {
    private final DriveModel model;
    private final List<String> complaints;

    private DriveOutcome(DriveModel model, List<String> complaints) {
        this.model = model;
        this.complaints = List.copyOf(complaints);
    }

    static DriveOutcome of(List<String> complaints) {
        return new DriveOutcome(null, complaints);
    }

    static DriveOutcome of(DriveModel model, List<String> complaints) {
        return new DriveOutcome(model, complaints);
    }

    /**
     * Returns the drive.
     *
     * @return empty as long as something is missing
     */
    public Optional<DriveModel> model() {
        return Optional.ofNullable(model);
    }

    /**
     * Returns what is missing or wrong.
     *
     * @return one sentence each, empty if all is well
     */
    public List<String> complaints() {
        return complaints;
    }
}
