package tickover.report;

import com.samskivert.mustache.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tickover.drive.Direction;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Face;

/** A page to take along for reassembly: how the belt lies and which way everything turns. */
public final class RoutingPage {
    private static final String TEMPLATE = "routing.html";

    private RoutingPage() {}

    /**
     * Writes the page.
     *
     * @param model the drive
     * @return one HTML file without outside references
     */
    public static String html(DriveModel model) {
        return Mustache.compiler()
                .escapeHTML(true)
                .compile(template())
                .execute(
                        Map.of(
                                "unit", model.vehicle().unit(),
                                "drawing", EngineDrawing.svg(model),
                                "belts", model.belts().stream().map(RoutingPage::belt).toList(),
                                "parts", model.parts().stream().map(RoutingPage::part).toList()));
    }

    private static Map<String, String> belt(DriveBelt belt) {
        List<String> stops = belt.belt().path();
        String length =
                belt.lengthMm().isPresent()
                        ? String.format(
                                Locale.ROOT, "; %.0f mm long", belt.lengthMm().getAsDouble())
                        : "";
        return Map.of("name", belt.name(), "path", String.join(" → ", stops), "length", length);
    }

    private static Map<String, String> part(DrivePart part) {
        return Map.of(
                "name",
                part.name(),
                "face",
                part.pulley().face() == Face.GROOVED ? "its ribs" : "its back",
                "way",
                part.direction() == Direction.CRANK ? "with the crank" : "against the crank");
    }

    private static String template() {
        try (InputStream in = RoutingPage.class.getResourceAsStream(TEMPLATE)) {
            if (in == null) {
                throw new IllegalStateException("resource " + TEMPLATE + " is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
