package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.console.model.Preferences.Units;
import tickover.drive.Direction;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;

/** Says what a drive comes to, in sentences. */
public final class DriveWords {
    private DriveWords() {}

    /**
     * Says how fast and which way everything turns, how long the belts are, and how much cannot be
     * told apart.
     *
     * @param outcome what was entered
     * @param units how to show lengths
     * @return one sentence each; empty as long as nothing can be computed
     */
    public static List<String> of(DriveOutcome outcome, Units units) {
        if (outcome.model().isEmpty()) {
            return List.of();
        }
        DriveModel model = outcome.model().get();
        List<String> words = new ArrayList<>();
        for (DrivePart part : model.parts()) {
            words.add(part(part));
        }
        for (DriveBelt belt : model.belts()) {
            belt.lengthMm()
                    .ifPresent(
                            mm ->
                                    words.add(
                                            "Belt "
                                                    + belt.name()
                                                    + ": "
                                                    + Lengths.shown(Numbers.text(mm, 0), units)
                                                    + " "
                                                    + Lengths.unit(units)
                                                    + " long."));
        }
        int pairs = model.collisions().size();
        if (pairs > 0) {
            words.add(
                    pairs
                            + (pairs == 1 ? " pair of lines" : " pairs of lines")
                            + " of different parts cannot be told apart by their order alone;"
                            + " place, load and belt-off will have to decide there.");
        }
        words.addAll(model.notes());
        return words;
    }

    private static String part(DrivePart part) {
        String way = part.direction() == Direction.CRANK ? "with the crank" : "against the crank";
        String wrap =
                part.wrapDeg().isPresent()
                        ? String.format(
                                Locale.ROOT, ", belt on %.0f° of it", part.wrapDeg().getAsDouble())
                        : "";
        return String.format(
                Locale.ROOT,
                "%s: %.3f turns per crank turn, %s%s.",
                part.name(),
                part.turnsPerCrankTurn(),
                way,
                wrap);
    }
}
