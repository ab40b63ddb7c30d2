package tickover.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
import tickover.drive.PartWords;
import tickover.drive.PulleyPlaces;

/**
 * Draws an engine's front as SVG, from its pulleys and belts: what turns which way, and which part
 * is the probable source. The mark is told by shape and words, the colour only repeats it.
 */
public final class EngineDrawing {
    /** Longer side of the drive in the drawing, pixels; labels stand around it. */
    private static final double SPAN_PIXELS = 440;

    /** Round the drive and its labels, pixels. */
    private static final double MARGIN_PIXELS = 12;

    /** Below this radius a name does not fit into its pulley. */
    private static final double ROOM_FOR_NAME_PIXELS = 50;

    /** Between a pulley and what is written beside it, pixels. */
    private static final double GAP_PIXELS = 12;

    private static final double LEGEND_LINE_PIXELS = 18;

    /** A suspect below this probability is not worth a mark. */
    private static final double WORTH_A_MARK = 0.1;

    private static final double LEGEND_FONT = 14;

    /** Names stand below the arrow: so much of the radius under the middle. */
    private static final double LABEL_DROP = 0.12;

    static final String INK = "#20242a";
    private static final String SUSPECT = "#b3420b";

    private final DriveModel model;
    private final Map<String, Double> suspects;
    private final boolean decided;
    private final boolean withTurns;
    private final PulleyPlaces places;
    private final DrawingLabels labels = new DrawingLabels();
    private final Svg svg = new Svg();

    private EngineDrawing(
            DriveModel model, List<Candidate> suspects, boolean decided, boolean withTurns) {
        this.model = Objects.requireNonNull(model, "model");
        this.suspects =
                suspects.stream()
                        .filter(c -> !c.component().equals(Candidate.NONE))
                        .filter(c -> c.probability() >= WORTH_A_MARK)
                        .collect(
                                Collectors.toMap(
                                        Candidate::component,
                                        Candidate::probability,
                                        Double::sum,
                                        LinkedHashMap::new));
        this.decided = decided;
        this.withTurns = withTurns;
        this.places =
                PulleyPlaces.of(
                        model.parts().stream().map(DrivePart::pulley).toList(), SPAN_PIXELS);
    }

    /**
     * Draws the drive alone, with every part's turns.
     *
     * @param model the drive
     * @return one {@code svg} element
     */
    public static String svg(DriveModel model) {
        return new EngineDrawing(model, List.of(), false, true).draw();
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
                        model,
                        findings.candidates(),
                        findings.verdict() == Verdict.COMPONENT,
                        false)
                .draw();
    }

    private String draw() {
        model.parts().forEach(this::label);
        List<String> legend = legend();
        double left = Math.min(0, labels.left()) - MARGIN_PIXELS;
        double right = Math.max(places.widthPixels(), labels.right()) + MARGIN_PIXELS;
        for (String line : legend) {
            right = Math.max(right, left + DrawingLabels.widthPixels(line, false));
        }
        double top = Math.min(0, labels.top()) - MARGIN_PIXELS;
        double bottom = Math.max(places.heightPixels(), labels.bottom()) + MARGIN_PIXELS;
        double width = right - left;
        double height = bottom - top + LEGEND_LINE_PIXELS * legend.size();
        String title = "Front of the engine of " + model.vehicle().unit();
        svg.root(width, height, title, title + marksInWords(), DrawingLabels.FONT_PIXELS);
        definitions();
        svg.empty("rect", "width", width, "height", height, "fill", "#ffffff");
        svg.open("g", "transform", "translate(" + Svg.number(-left) + " " + Svg.number(-top) + ")");
        model.parts().forEach(this::pulley);
        model.belts().forEach(this::belt);
        model.parts().forEach(this::pointer);
        labels.draw(svg);
        svg.close("g");
        double y = bottom - top + LEGEND_FONT;
        for (String line : legend) {
            svg.words("text", line, "x", 0, "y", y, "font-size", LEGEND_FONT, "fill", INK);
            y += LEGEND_LINE_PIXELS;
        }
        return svg.close("svg").toString();
    }

    private String marksInWords() {
        List<String> said = new ArrayList<>();
        suspects.forEach(
                (name, probability) -> said.add(PartWords.plain(name) + ": " + mark(probability)));
        return said.isEmpty() ? "" : "; marked: " + String.join(", ", said);
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
                "round");
    }

    private static String point(double[] xy) {
        return Svg.number(xy[0]) + " " + Svg.number(xy[1]);
    }

    /** Writes a name into its pulley, or beside it, away from the middle of the drive. */
    private void label(DrivePart part) {
        List<DrawingLabels.Line> lines = new ArrayList<>();
        for (String line : DrawingLabels.folded(PartWords.plain(part.name()))) {
            lines.add(new DrawingLabels.Line(line, true, INK));
        }
        if (withTurns) {
            lines.add(new DrawingLabels.Line(turns(part), false, INK));
        }
        Double probability = suspects.get(part.name());
        if (probability != null) {
            lines.add(new DrawingLabels.Line(mark(probability), true, SUSPECT));
        }
        PulleyPlaces.Place at = places.of(part.name());
        if (at.radius() >= ROOM_FOR_NAME_PIXELS && probability == null) {
            labels.within(lines, at.x(), at.y() + LABEL_DROP * at.radius());
        } else if (places.measured()) {
            double[] out = outward(at);
            double reach = at.radius() + GAP_PIXELS;
            labels.beside(lines, at.x() + out[0] * reach, at.y() + out[1] * reach, out);
        } else {
            labels.beside(lines, at.x(), at.y() + at.radius() + GAP_PIXELS, new double[] {0, 1});
        }
    }

    /** The unit vector from the middle of the drive to a pulley. */
    private double[] outward(PulleyPlaces.Place at) {
        double x = at.x() - places.widthPixels() / 2;
        double y = at.y() - places.heightPixels() / 2;
        double length = Math.hypot(x, y);
        return length > 0 ? new double[] {x / length, y / length} : new double[] {0, 1};
    }

    private String mark(double probability) {
        boolean first = probability >= suspects.values().stream().max(Double::compare).get();
        return (decided && first ? "most probable " : "suspect ") + Wording.percent(probability);
    }

    /** A tip on the inner side of a suspected pulley, pointing at it. */
    private void pointer(DrivePart part) {
        if (!suspects.containsKey(part.name())) {
            return;
        }
        PulleyPlaces.Place at = places.of(part.name());
        double[] out = places.measured() ? outward(at) : new double[] {0, 1};
        svg.empty(
                "path",
                "d",
                "M"
                        + Svg.number(at.x() - out[0] * (at.radius() + 6))
                        + " "
                        + Svg.number(at.y() - out[1] * (at.radius() + 6))
                        + " l-34 -9 v18 z",
                "transform",
                "rotate("
                        + Svg.number(Math.toDegrees(Math.atan2(out[1], out[0])))
                        + " "
                        + Svg.number(at.x() - out[0] * (at.radius() + 6))
                        + " "
                        + Svg.number(at.y() - out[1] * (at.radius() + 6))
                        + ")",
                "fill",
                SUSPECT,
                "stroke",
                "#ffffff",
                "stroke-width",
                2);
    }

    private static String turns(DrivePart part) {
        return String.format(Locale.ROOT, "%.3f turns", part.turnsPerCrankTurn());
    }

    private List<String> legend() {
        List<String> says = new ArrayList<>();
        says.add("Seen from the front, the crank drawn turning clockwise.");
        if (withTurns) {
            says.add("Turns are per crank turn.");
        }
        says.add("Dotted ring: grooved, on the belt's ribs. Plain: flat, on its back.");
        if (!suspects.isEmpty()) {
            says.add("Hatched with a pointer: suspect.");
        }
        if (!places.measured()) {
            says.add("Not all positions are measured, so the parts stand in a row.");
        }
        return says;
    }
}
