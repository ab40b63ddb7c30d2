package tickover.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import tickover.diagnose.Candidate;
import tickover.diagnose.Findings;
import tickover.diagnose.Verdict;
import tickover.drive.BeltRoute;
import tickover.drive.Direction;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Face;
import tickover.drive.PulleyPlaces;

/**
 * Draws an engine's front as SVG, from its pulleys and belts: what turns which way, and which part
 * is the probable source. The mark is told by shape and words, the colour only repeats it.
 */
public final class EngineDrawing {
    /** Longer side of the drive in the drawing, pixels; labels stand around it. */
    private static final double SPAN_PIXELS = 560;

    private static final double MARGIN_PIXELS = 96;

    /** Below this radius a name does not fit into its pulley. */
    private static final double ROOM_FOR_NAME_PIXELS = 56;

    /** A suspect below this probability is not worth a mark. */
    private static final double WORTH_A_MARK = 0.1;

    private static final String INK = "#20242a";
    private static final String SUSPECT = "#b3420b";

    private final DriveModel model;
    private final Map<String, Double> suspects;
    private final boolean decided;
    private final PulleyPlaces places;
    private final Svg svg = new Svg();

    private EngineDrawing(DriveModel model, List<Candidate> suspects, boolean decided) {
        this.model = Objects.requireNonNull(model, "model");
        this.suspects =
                suspects.stream()
                        .filter(c -> !c.component().equals(Candidate.NONE))
                        .filter(c -> c.probability() >= WORTH_A_MARK)
                        .collect(
                                Collectors.toMap(
                                        Candidate::component, Candidate::probability, Double::sum));
        this.decided = decided;
        this.places =
                PulleyPlaces.of(
                        model.parts().stream().map(DrivePart::pulley).toList(), SPAN_PIXELS);
    }

    /**
     * Draws the drive alone.
     *
     * @param model the drive
     * @return one {@code svg} element
     */
    public static String svg(DriveModel model) {
        return new EngineDrawing(model, List.of(), false).draw();
    }

    /**
     * Draws the drive with the suspects marked.
     *
     * @param model the drive
     * @param findings what a visit of that vehicle says
     * @return one {@code svg} element
     */
    public static String svg(DriveModel model, Findings findings) {
        return new EngineDrawing(
                        model, findings.candidates(), findings.verdict() == Verdict.COMPONENT)
                .draw();
    }

    private String draw() {
        double width = places.widthPixels() + 2 * MARGIN_PIXELS;
        double height = places.heightPixels() + 2 * MARGIN_PIXELS;
        svg.open(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "viewBox",
                "0 0 " + Svg.number(width) + " " + Svg.number(height),
                "width",
                width,
                "height",
                height,
                "role",
                "img",
                "font-family",
                "sans-serif",
                "font-size",
                14);
        svg.words("title", "Front of the engine of " + model.vehicle().unit());
        definitions();
        svg.empty("rect", "width", width, "height", height, "fill", "#ffffff");
        svg.open("g", "transform", "translate(" + MARGIN_PIXELS + " " + MARGIN_PIXELS + ")");
        model.parts().forEach(this::pulley);
        model.belts().forEach(this::belt);
        model.parts().forEach(this::label);
        svg.close("g");
        legend(height);
        return svg.close("svg").toString();
    }

    private void definitions() {
        svg.open("defs")
                .open(
                        "marker",
                        "id",
                        "tip",
                        "viewBox",
                        "0 0 10 10",
                        "refX",
                        5,
                        "refY",
                        5,
                        "markerWidth",
                        5,
                        "markerHeight",
                        5,
                        "orient",
                        "auto")
                .empty("path", "d", "M0 0 L10 5 L0 10 z", "fill", INK)
                .close("marker")
                .open(
                        "pattern",
                        "id",
                        "hatch",
                        "width",
                        8,
                        "height",
                        8,
                        "patternUnits",
                        "userSpaceOnUse",
                        "patternTransform",
                        "rotate(45)")
                .empty("rect", "width", 8, "height", 8, "fill", "#fdebdc")
                .empty("rect", "width", 2, "height", 8, "fill", SUSPECT, "opacity", 0.55)
                .close("pattern")
                .close("defs");
    }

    private void pulley(DrivePart part) {
        PulleyPlaces.Place at = places.of(part.name());
        boolean suspect = suspects.containsKey(part.name());
        svg.empty(
                "circle",
                "cx",
                at.x(),
                "cy",
                at.y(),
                "r",
                at.radius(),
                "fill",
                suspect ? "url(#hatch)" : "#eef1f4",
                "stroke",
                suspect ? SUSPECT : INK,
                "stroke-width",
                suspect ? 4 : 1.5);
        if (part.pulley().face() == Face.GROOVED) {
            svg.empty(
                    "circle",
                    "cx",
                    at.x(),
                    "cy",
                    at.y(),
                    "r",
                    0.9 * at.radius(),
                    "fill",
                    "none",
                    "stroke",
                    INK,
                    "stroke-width",
                    1,
                    "stroke-dasharray",
                    "2 3");
        }
        turnArrow(part, at);
    }

    /** An open arc with a tip; the crank is drawn turning clockwise. */
    private void turnArrow(DrivePart part, PulleyPlaces.Place at) {
        boolean clockwise = part.direction() == Direction.CRANK;
        double r = 0.72 * at.radius();
        double side = r * Math.cos(Math.toRadians(35));
        double rise = r * Math.sin(Math.toRadians(35));
        double fromX = at.x() + (clockwise ? -side : side);
        double toX = at.x() + (clockwise ? side : -side);
        double y = at.y() - rise;
        svg.empty(
                "path",
                "d",
                "M"
                        + Svg.number(fromX)
                        + " "
                        + Svg.number(y)
                        + " A"
                        + Svg.number(r)
                        + " "
                        + Svg.number(r)
                        + " 0 0 "
                        + (clockwise ? 1 : 0)
                        + " "
                        + Svg.number(toX)
                        + " "
                        + Svg.number(y),
                "fill",
                "none",
                "stroke",
                INK,
                "stroke-width",
                2,
                "marker-end",
                "url(#tip)");
    }

    private void belt(DriveBelt belt) {
        if (belt.route().isEmpty()) {
            return;
        }
        StringBuilder d = new StringBuilder();
        for (BeltRoute.Contact c : belt.route().get().contacts()) {
            double[] entry = places.pixels(c.entry());
            double[] exit = places.pixels(c.exit());
            d.append(d.isEmpty() ? "M" : " L").append(point(entry));
            double r = places.pixels(c.radiusMm());
            d.append(" A").append(Svg.number(r)).append(' ').append(Svg.number(r));
            d.append(" 0 ").append(c.wrapDeg() > 180 ? 1 : 0);
            d.append(' ').append(c.anticlockwise() ? 0 : 1).append(' ').append(point(exit));
        }
        boolean suspect = suspects.containsKey(DriveBelt.partName(belt.name()));
        svg.empty(
                "path",
                "d",
                d.append(" Z"),
                "fill",
                "none",
                "stroke",
                suspect ? SUSPECT : INK,
                "stroke-width",
                suspect ? 7 : 4,
                "stroke-dasharray",
                suspect ? "14 4" : "none",
                "stroke-linejoin",
                "round",
                "opacity",
                0.85);
    }

    private static String point(double[] xy) {
        return Svg.number(xy[0]) + " " + Svg.number(xy[1]);
    }

    private void label(DrivePart part) {
        PulleyPlaces.Place at = places.of(part.name());
        boolean inside = at.radius() >= ROOM_FOR_NAME_PIXELS;
        double y = inside ? at.y() + 8 : at.y() + at.radius() + 20;
        text(part.name(), at.x(), y, "bold", INK);
        text(turns(part), at.x(), y + 16, "normal", INK);
        Double probability = suspects.get(part.name());
        if (probability != null) {
            boolean first = probability >= suspects.values().stream().max(Double::compare).get();
            String mark = decided && first ? "most probable " : "suspect ";
            text(mark + Wording.percent(probability), at.x(), y + 32, "bold", SUSPECT);
            pointer(at);
        }
    }

    /** A tip at the pulley's right, pointing at it. */
    private void pointer(PulleyPlaces.Place at) {
        svg.empty(
                "path",
                "d",
                "M"
                        + Svg.number(at.x() + at.radius() + 5)
                        + " "
                        + Svg.number(at.y())
                        + " l20 -10 v20 z",
                "fill",
                SUSPECT,
                "stroke",
                "#ffffff",
                "stroke-width",
                2);
    }

    private void text(String words, double x, double y, String weight, String colour) {
        svg.words(
                "text",
                words,
                "x",
                x,
                "y",
                y,
                "text-anchor",
                "middle",
                "font-weight",
                weight,
                "fill",
                colour,
                "stroke",
                "#ffffff",
                "stroke-width",
                4,
                "paint-order",
                "stroke");
    }

    private static String turns(DrivePart part) {
        return String.format(java.util.Locale.ROOT, "%.3f turns", part.turnsPerCrankTurn());
    }

    private void legend(double height) {
        List<String> says = new ArrayList<>();
        says.add(
                "Seen from the front, the crank drawn turning clockwise; turns are per crank"
                        + " turn.");
        says.add(
                "Dotted ring: grooved face. Plain: flat, on the belt's back."
                        + (suspects.isEmpty() ? "" : " Hatched with a pointer: suspect."));
        if (!places.measured()) {
            says.add("Not all positions are measured, so the parts stand in a row.");
        }
        double y = height - 8 - 17.0 * (says.size() - 1);
        for (String line : says) {
            svg.words("text", line, "x", 10, "y", y, "font-size", 12, "fill", INK);
            y += 17;
        }
    }
}
