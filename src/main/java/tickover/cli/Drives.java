package tickover.cli;

import tickover.drive.DriveModel;
import tickover.drive.Vehicle;

/** Builds drive models and says in the user's terms why one cannot be built. */
final class Drives {
    private Drives() {}

    /**
     * Builds the model.
     *
     * @param vehicle as it was read
     * @param place where it was read from, for the sentence
     */
    static DriveModel model(Vehicle vehicle, String place) {
        try {
            return DriveModel.of(vehicle);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(place + ": " + e.getMessage(), e);
        }
    }
}
