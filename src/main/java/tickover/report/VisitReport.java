package tickover.report;

import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.drive.PartWords;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/**
 * The report of one visit: a page for the customer in plain words, then what the workshop needs and
 * what a second reader needs to check it. One template makes HTML and PDF, so both say the same.
 * Asks nothing of the network; every text of the visit is escaped. One thread.
 */
public final class VisitReport {
    static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("d MMMM yyyy, HH:mm", Locale.UK);

    static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMMM yyyy", Locale.UK);

    private static final int PLOT_WIDTH_PIXELS = 780;
    private static final int PLOT_HEIGHT_PIXELS = 330;
    private static final int MAP_HEIGHT_PIXELS = 370;

    /** First code point after the Latin letters that need nothing but a font. */
    private static final int BEYOND_LATIN = 0x250;

    private final Visit visit;
    private final DriveModel model;
    private final VisitResult result;
    private final List<Map<String, Object>> figures = new ArrayList<>();
    private final List<String> missingPlots = new ArrayList<>();
    private Map<String, Object> earlier = EarlierVisit.nothing();
    private String plotSettings = "";
    private boolean technical = true;

    private VisitReport(Visit visit, DriveModel model, VisitResult result) {
        this.visit = Objects.requireNonNull(visit, "visit");
        this.model = Objects.requireNonNull(model, "model");
        this.result = Objects.requireNonNull(result, "result");
    }

    /**
     * Starts a report.
     *
     * @param visit the visit
     * @param model its vehicle's drive
     * @param result what the visit says
     * @return a report without figures
     */
    public static VisitReport of(Visit visit, DriveModel model, VisitResult result) {
        return new VisitReport(visit, model, result);
    }

    /**
     * Adds a heat map.
     *
     * @param picture the plot
     * @param caption what it shows and how it was made
     * @return this
     */
    public VisitReport heatMap(Picture picture, String caption) {
        return figure(picture, MAP_HEIGHT_PIXELS, caption);
    }

    /**
     * Adds a plot of lines.
     *
     * @param picture the plot
     * @param caption what it shows and how it was made
     * @return this
     */
    public VisitReport plot(Picture picture, String caption) {
        return figure(picture, PLOT_HEIGHT_PIXELS, caption);
    }

    private VisitReport figure(Picture picture, int height, String caption) {
        String prefix = "figure" + (figures.size() + 1) + "-";
        String saysWhat = picture.title().isEmpty() ? caption : picture.title() + ". " + caption;
        figures.add(
                Map.of(
                        "picture",
                        picture.svg(PLOT_WIDTH_PIXELS, height, prefix, saysWhat),
                        "caption",
                        caption));
        return this;
    }

    /**
     * Says how the plots were computed.
     *
     * @param settings with units
     * @return this
     */
    public VisitReport plotSettings(String settings) {
        plotSettings = Objects.requireNonNull(settings, "settings");
        return this;
    }

    /**
     * Says why plots are missing.
     *
     * @param sentence where they would stand
     * @return this
     */
    public VisitReport plotsMissing(String sentence) {
        missingPlots.add(Objects.requireNonNull(sentence, "sentence"));
        return this;
    }

    /**
     * Holds the visit against an earlier one.
     *
     * @param earlierVisit the earlier visit
     * @param earlierResult what it said
     * @param repairedPart what was repaired between the two, as {@link
     *     tickover.diagnose.PartLevel#part}; empty if nothing is known to have been
     * @return this
     */
    public VisitReport against(Visit earlierVisit, VisitResult earlierResult, String repairedPart) {
        earlier =
                EarlierVisit.of(earlierVisit, earlierResult, visit, result, repairedPart).values();
        return this;
    }

    /**
     * Leaves the technical pages out.
     *
     * @return this
     */
    public VisitReport customerOnly() {
        technical = false;
        return this;
    }

    /**
     * Writes the report as HTML.
     *
     * @return the whole document, well-formed XML
     */
    public String html() {
        return ReportTemplate.fill("visit", values());
    }

    /**
     * Writes the report as PDF: tagged, with bookmarks, its fonts embedded. Says in the end which
     * characters its fonts do not have. The same report gives the same bytes.
     *
     * @return the bytes of the file
     */
    public byte[] pdf() {
        Map<String, Object> v = values();
        v.put("pdf", true);
        String page = ReportTemplate.fill("visit", v);
        PdfText text = PdfText.of(page);
        if (!text.missing().isEmpty()) {
            v.put("missingCharacters", text.sentence());
            text = PdfText.of(ReportTemplate.fill("visit", v));
        }
        return PdfPrinter.print(text.page());
    }

    private Map<String, Object> values() {
        Map<String, Object> v = new HashMap<>();
        v.putAll(CustomerPage.values(visit, model, result));
        v.putAll(FindingsPage.values(result.findings()));
        v.putAll(LevelsPage.values(result));
        v.putAll(RoutingPage.values(model));
        v.putAll(earlier);
        head(v);
        v.put(
                "drawing",
                model.parts().isEmpty() ? "" : EngineDrawing.svg(model, result.findings()));
        v.put("figures", figures);
        v.put("missingPlots", missingPlots);
        v.put("plotSettings", plotSettings);
        v.put("codeVersion", result.codeVersion());
        v.put("settings", result.settings());
        v.put("files", files());
        v.put("unused", unused());
        v.put("comesFirst", Caution.comesFirst());
        v.put("technical", technical);
        v.put("pdf", false);
        v.put("missingCharacters", "");
        return v;
    }

    private void head(Map<String, Object> v) {
        String unit = visit.vehicle().unit();
        v.put("id", visit.id().toString());
        v.put("unit", unit);
        v.put("description", visit.vehicle().description());
        v.put("date", DATE.format(visit.date()));
        v.put("title", Svg.escape(unit + ", visit of " + DATE.format(visit.date())));
        v.put("subject", Svg.escape(Wording.headline(result.findings())));
        v.put("foot", cssText(foot(unit, DATE.format(visit.date()))));
        v.put("complaint", visit.complaint());
        v.put(
                "odometer",
                visit.odometerKm().isPresent()
                        ? String.format(Locale.ROOT, "%.0f", visit.odometerKm().getAsDouble())
                        : "");
    }

    /**
     * What stands at the foot of every page, where the PDF library neither orders words that are
     * written from the right nor looks for missing signs: a name beyond Latin letters is left out.
     */
    private static String foot(String unit, String date) {
        boolean latin = unit.codePoints().allMatch(c -> c < BEYOND_LATIN);
        return latin ? unit + ", visit of " + date : "Visit of " + date;
    }

    /**
     * Text inside a string of a style sheet, where what is no letter or digit is written as code.
     */
    private static String cssText(String text) {
        return text.codePoints()
                .mapToObj(
                        c ->
                                c < 128 && (Character.isLetterOrDigit(c) || c == ' ')
                                        ? Character.toString(c)
                                        : String.format(Locale.ROOT, "\\%x ", c))
                .collect(Collectors.joining());
    }

    /** The files, those of one scale and one way to know the speed together. */
    private String files() {
        Map<String, List<String>> alike = new LinkedHashMap<>();
        for (VisitCapture c : visit.captures()) {
            alike.computeIfAbsent(howRecorded(c), k -> new ArrayList<>())
                    .add(c.file() + c.speedFile().map(f -> " with " + f).orElse(""));
        }
        return alike.entrySet().stream()
                .map(e -> e.getKey() + ": " + String.join(", ", e.getValue()))
                .collect(Collectors.joining("; "));
    }

    private String howRecorded(VisitCapture c) {
        boolean byTach =
                result.captures().stream()
                        .anyMatch(
                                r ->
                                        r.label().id().equals(c.label().id())
                                                && r.speedSource().equals("tach"));
        String speed =
                c.speedFile().isEmpty()
                        ? ", no speed record"
                        : byTach
                                ? ", tach of "
                                        + c.pulsesPerTurn()
                                        + (c.pulsesPerTurn() == 1 ? " pulse" : " pulses")
                                        + " per turn of "
                                        + PartWords.the(c.tachPulley())
                                : "";
        return "scale " + plain(c.scaleMps2()) + " m/s²" + speed;
    }

    private static String plain(double value) {
        return value == Math.rint(value)
                ? String.format(Locale.ROOT, "%.0f", value)
                : String.format(Locale.ROOT, "%.6g", value);
    }

    private List<String> unused() {
        List<String> names = NotTested.unusedCaptures(visit, result);
        return names.isEmpty()
                ? List.of()
                : List.of(
                        "Not used: "
                                + String.join(", ", names)
                                + "; the reasons stand under data quality.");
    }
}
