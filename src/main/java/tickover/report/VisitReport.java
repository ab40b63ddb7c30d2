package tickover.report;

import com.samskivert.mustache.Mustache;
import com.samskivert.mustache.Template;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import tickover.diagnose.Candidate;
import tickover.diagnose.PartChange;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.store.Visit;

/**
 * One HTML file about one visit: the answer in plain words first, the drawing, the reasons, then
 * what a second reader needs to check it. Asks nothing of the network; every text of the visit is
 * escaped.
 */
public final class VisitReport {
    private static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("d MMMM yyyy, HH:mm", Locale.UK);

    private final Visit visit;
    private final DriveModel model;
    private final VisitResult result;
    private final List<Map<String, Object>> figures = new ArrayList<>();
    private final List<PartChange> changes = new ArrayList<>();
    private String changesAgainst = "";

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
     * Adds a heat map, embedded as PNG.
     *
     * @param picture the plot
     * @param caption one sentence under it
     * @return this
     */
    public VisitReport heatMap(Picture picture, String caption) {
        String image =
                new Svg()
                        .empty(
                                "img",
                                "alt",
                                caption,
                                "src",
                                picture.dataAddress(1100, 620),
                                "width",
                                1100)
                        .toString();
        return figure(image, caption);
    }

    /**
     * Adds a plot of lines, embedded as SVG.
     *
     * @param picture the plot
     * @param caption one sentence under it
     * @return this
     */
    public VisitReport plot(Picture picture, String caption) {
        return figure(picture.svg(1000, 420), caption);
    }

    private VisitReport figure(String markup, String caption) {
        figures.add(Map.of("picture", markup, "caption", caption));
        return this;
    }

    /**
     * Adds what changed since an earlier visit.
     *
     * @param found one per part
     * @param against which visit they are held against, a sentence
     * @return this
     */
    public VisitReport changes(List<PartChange> found, String against) {
        changes.addAll(found);
        changesAgainst = Objects.requireNonNull(against, "against");
        return this;
    }

    /**
     * Writes the page.
     *
     * @return the whole HTML document
     */
    public String html() {
        return template().execute(values());
    }

    private static Template template() {
        try (InputStream in = VisitReport.class.getResourceAsStream("visit.html")) {
            return Mustache.compiler()
                    .escapeHTML(true)
                    .emptyStringIsFalse(true)
                    .compile(new InputStreamReader(in, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException("visit.html of the program cannot be read", e);
        }
    }

    private Map<String, Object> values() {
        Map<String, Object> v = new HashMap<>();
        head(v);
        v.putAll(FindingsPage.values(result.findings()));
        v.putAll(LevelsPage.values(result));
        v.put("drawing", EngineDrawing.svg(model, result.findings()));
        v.put("figures", figures);
        v.put("hasChanges", !changes.isEmpty());
        v.put("changesAgainst", changesAgainst);
        v.put("changes", changes.stream().map(VisitReport::change).toList());
        v.put("codeVersion", result.codeVersion());
        v.put("settings", result.settings());
        v.put("comesFirst", Caution.comesFirst());
        return v;
    }

    private void head(Map<String, Object> v) {
        v.put("id", visit.id().toString());
        v.put("unit", visit.vehicle().unit());
        v.put("description", visit.vehicle().description());
        v.put("date", DATE.format(visit.date()));
        v.put("complaint", visit.complaint());
        v.put(
                "odometer",
                visit.odometerKm().isPresent()
                        ? String.format(Locale.ROOT, "%.0f", visit.odometerKm().getAsDouble())
                        : "");
        boolean suspects =
                result.findings().candidates().stream()
                        .anyMatch(
                                c ->
                                        !c.component().equals(Candidate.NONE)
                                                && model.part(c.component()).isPresent());
        v.put(
                "markWords",
                suspects ? "Suspects are hatched and have a pointer with their probability." : "");
    }

    private static Map<String, Object> change(PartChange c) {
        return Map.of(
                "part",
                c.part(),
                "change",
                String.format(Locale.ROOT, "%+.1f", c.changeDb()),
                "interval",
                String.format(Locale.ROOT, "%+.1f to %+.1f", c.lowDb(), c.highDb()),
                "pairs",
                c.pairs(),
                "words",
                Wording.change(c));
    }
}
