package tickover.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tickover.drive.Direction;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Face;
import tickover.drive.PartWords;

/** A page to take along for reassembly: how the belt lies and which way everything turns. */
public final class RoutingPage {
    private RoutingPage() {}

    /**
     * Writes the page.
     *
     * @param model the drive
     * @return one HTML file without outside references
     */
    public static String html(DriveModel model) {
        Map<String, Object> v = values(model);
        v.put("unit", model.vehicle().unit());
        v.put("drawing", EngineDrawing.svg(model));
        return ReportTemplate.fill("routing", v);
    }

    /** What a template says of the belts and of which way everything turns. */
    static Map<String, Object> values(DriveModel model) {
        Map<String, Object> v = new HashMap<>();
        v.put("hasRouting", !model.parts().isEmpty());
        v.put(
                "belts",
                model.belts().stream()
                        .filter(b -> !b.belt().path().isEmpty())
                        .map(RoutingPage::belt)
                        .toList());
        v.put("routing", model.parts().stream().map(RoutingPage::part).toList());
        v.put("ways", ways(model));
        return v;
    }

    private static Map<String, String> belt(DriveBelt belt) {
        List<String> stops = new ArrayList<>();
        belt.belt().path().forEach(p -> stops.add(PartWords.plain(p)));
        stops.add(stops.get(0));
        String length =
                belt.lengthMm().isPresent()
                        ? String.format(Locale.ROOT, " (%.0f mm)", belt.lengthMm().getAsDouble())
                        : "";
        return Map.of(
                "name",
                PartWords.start(DriveBelt.partName(belt.name())),
                "path",
                String.join(" → ", stops),
                "length",
                length);
    }

    private static Map<String, String> part(DrivePart part) {
        return Map.of(
                "name",
                LongWords.column(part.name()),
                "face",
                part.pulley().face() == Face.GROOVED ? "its ribs" : "its back",
                "way",
                part.direction() == Direction.CRANK ? "with the crank" : "against the crank",
                "turns",
                String.format(Locale.ROOT, "%.3f", part.turnsPerCrankTurn()),
                "diameter",
                String.format(Locale.ROOT, "%.1f", part.pulley().diameterMm()));
    }

    private static String ways(DriveModel model) {
        String with = names(model, Direction.CRANK);
        String against = names(model, Direction.COUNTER);
        return "Turning with the crank: "
                + (with.isEmpty() ? "none" : with)
                + ". Against it: "
                + (against.isEmpty() ? "none" : against)
                + ".";
    }

    private static String names(DriveModel model, Direction direction) {
        return String.join(
                ", ",
                model.parts().stream()
                        .filter(p -> p.direction() == direction)
                        .map(p -> PartWords.plain(p.name()))
                        .toList());
    }
}
