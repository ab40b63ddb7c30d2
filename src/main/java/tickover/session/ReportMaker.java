package tickover.session;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.SeriesTrend;
import tickover.diagnose.VehicleTrend;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.drive.PartLine;
import tickover.drive.PartWords;
import tickover.order.OrderSpectrum;
import tickover.order.Waterfall;
import tickover.report.SpectrumPicture;
import tickover.report.TrendPicture;
import tickover.report.TrendWords;
import tickover.report.VisitReport;
import tickover.report.WaterfallPicture;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/**
 * Gathers what a report shows of one visit, and of an earlier one where there is one. Draws once,
 * whatever forms are asked for. One thread.
 */
public final class ReportMaker {
    private static final double SHOWN_ORDERS = 40;
    private static final int TURNS_PER_FRAME = 32;
    private static final int X_CHANNEL = 0;
    private static final int FEWEST_VISITS = 2;

    private final Visit visit;
    private final VisitResult result;
    private final DriveModel model;
    private final VisitReport report;
    private boolean customerOnly;

    /** The part that the report is about: what was repaired, else the first suspect. */
    private String subject;

    private List<SeriesTrend> trend = List.of();
    private boolean drawn;

    /**
     * Starts a report.
     *
     * @param visit the visit
     * @param result what it says
     */
    public ReportMaker(Visit visit, VisitResult result) {
        this.visit = visit;
        this.result = result;
        this.model = DriveModel.of(visit.vehicle());
        this.report = VisitReport.of(visit, model, result);
        this.subject = result.findings().firstPart().component();
    }

    /**
     * Holds the visit against an earlier one.
     *
     * @param earlier the earlier visit
     * @param earlierResult what it says
     * @return this
     */
    public ReportMaker against(Visit earlier, VisitResult earlierResult) {
        return against(earlier, earlierResult, "");
    }

    /**
     * Holds the visit against one before a repair.
     *
     * @param earlier the earlier visit
     * @param earlierResult what it says
     * @param repairedPart what was repaired between the two; empty if nothing is known to have been
     * @return this
     */
    public ReportMaker against(Visit earlier, VisitResult earlierResult, String repairedPart) {
        report.against(earlier, earlierResult, repairedPart);
        if (!repairedPart.isEmpty()) {
            subject = repairedPart;
        }
        return this;
    }

    /**
     * Adds the level of the part that the report is about over the vehicle's visits, where two or
     * more of them have one.
     *
     * @param vehicle the vehicle's history
     * @return this
     */
    public ReportMaker trend(VehicleTrend vehicle) {
        trend =
                vehicle.of(subject).stream()
                        .map(VehicleTrend.Judged::trend)
                        .filter(t -> t.series().points().size() >= FEWEST_VISITS)
                        .sorted(
                                Comparator.comparing(
                                                (SeriesTrend t) ->
                                                        !t.series().place().point().equals(subject))
                                        .thenComparing(t -> -t.series().points().size()))
                        .limit(1)
                        .toList();
        return this;
    }

    /**
     * Leaves the technical pages out.
     *
     * @return this
     */
    public ReportMaker customerOnly() {
        report.customerOnly();
        customerOnly = true;
        return this;
    }

    /**
     * Draws the figures and writes the report as HTML.
     *
     * @return the whole document
     * @throws tickover.store.StoreException if a recording cannot be read
     */
    public String html() {
        draw();
        return report.html();
    }

    /**
     * Draws the figures and writes the report as PDF.
     *
     * @return the bytes of the file
     * @throws tickover.store.StoreException if a recording cannot be read
     */
    public byte[] pdf() {
        draw();
        return report.pdf();
    }

    private void draw() {
        if (drawn || customerOnly) {
            return;
        }
        drawn = true;
        drawCapture();
        for (SeriesTrend t : trend) {
            String where = PartWords.the(subject) + " " + t.series().place().words();
            report.plot(
                    TrendPicture.of(t, "Level over the visits: " + where),
                    "rms level of every visit with its standard error. " + TrendWords.newest(t));
        }
    }

    private void drawCapture() {
        Set<String> reasons = new LinkedHashSet<>();
        for (VisitCapture capture : showcases()) {
            Optional<String> why = addFigures(capture);
            if (why.isEmpty()) {
                return;
            }
            reasons.add(why.get());
        }
        visit.captures().forEach(c -> c.removed().ifPresent(reasons::add));
        report.plotsMissing(
                reasons.isEmpty()
                        ? "There are no plots: no capture of this visit could be used."
                        : "There are no plots: " + String.join("; ", reasons) + ".");
    }

    /** The part's own point if it was probed, a sweep if there is one, the longest record. */
    private List<VisitCapture> showcases() {
        return result.captures().stream()
                .sorted(
                        Comparator.comparing(
                                        (CaptureSummary c) -> !c.label().point().equals(subject))
                                .thenComparing(c -> -(c.maxSpeedRpm() - c.minSpeedRpm()))
                                .thenComparing(c -> -c.durationS()))
                .flatMap(c -> visit.capture(c.label().id()).stream())
                .filter(c -> c.removed().isEmpty())
                .toList();
    }

    /** Draws one capture, or says why it cannot be drawn. */
    private Optional<String> addFigures(VisitCapture capture) {
        TrackedCapture tracked;
        try {
            tracked = TrackedCapture.of(visit.vehicle(), capture);
        } catch (NoAngleException e) {
            return Optional.of(e.getMessage());
        }
        double highest = Math.min(SHOWN_ORDERS, tracked.highestOrders());
        String where =
                "capture "
                        + capture.label().id()
                        + " at "
                        + PartWords.the(capture.label().point())
                        + ", "
                        + capture.label().regime().word()
                        + ", "
                        + capture.label().condition();
        OrderSpectrum spectrum = tracked.spectrum(X_CHANNEL, highest, TURNS_PER_FRAME);
        List<PartLine> lines =
                model.lines().stream().filter(l -> l.part().equals(subject)).toList();
        String marks = marks(lines);
        report.plot(
                SpectrumPicture.of(spectrum, "Order spectrum, " + where, highest, lines),
                "rms of a line that would give its bin alone, mean power of "
                        + spectrum.frames()
                        + " frames."
                        + marks);
        TrackedCapture.EnvelopeSpectrum envelope =
                tracked.envelopeSpectrum(X_CHANNEL, highest, TURNS_PER_FRAME);
        String band = "";
        if (envelope.mean() > 0) {
            band =
                    String.format(
                            Locale.ROOT,
                            "squared envelope of %.2f to %.2f kHz",
                            envelope.loHz() / 1000,
                            envelope.hiHz() / 1000);
            report.plot(
                    SpectrumPicture.ofEnvelope(
                            envelope.spectrum(),
                            envelope.mean(),
                            "Envelope spectrum, " + where,
                            highest,
                            lines),
                    "How the power of the ringing comes and goes ("
                            + band
                            + "): knocks of a bearing stand here, not in the spectrum above."
                            + marks);
        }
        Waterfall.Axis axis = Waterfall.Axis.TIME;
        Waterfall waterfall = tracked.waterfall(X_CHANNEL, highest, TURNS_PER_FRAME / 2, axis);
        if (!waterfall.rows().isEmpty()) {
            report.heatMap(
                    WaterfallPicture.of(waterfall, "Waterfall, " + where, axis, highest, lines),
                    "Orders stand upright whatever the speed does; what keeps its frequency"
                            + " bends."
                            + marks);
        }
        report.plotSettings(
                String.format(
                        Locale.ROOT,
                        "capture %s, channel %d of %d, %.0f Hz; spectra of Hann frames of %d crank"
                                + " turns that overlap by half, %d of them, bins of %.4f orders%s;"
                                + " waterfall of Hann frames of %d crank turns; orders up to %.1f",
                        capture.label().id(),
                        X_CHANNEL + 1,
                        tracked.channels(),
                        tracked.signal().sampleRateHz(),
                        Math.round(1 / spectrum.orderOf(1)),
                        spectrum.frames(),
                        spectrum.orderOf(1),
                        band.isEmpty() ? "" : "; " + band,
                        Math.round(1 / waterfall.orderOf(1)),
                        highest));
        return Optional.empty();
    }

    private String marks(List<PartLine> lines) {
        return lines.isEmpty()
                ? ""
                : String.format(
                        Locale.ROOT,
                        " Dashed: nominal orders of the lines of %s; real ones may be up to %.1f %%"
                                + " off.",
                        PartWords.the(subject),
                        100
                                * lines.stream()
                                        .mapToDouble(PartLine::uncertaintyRatio)
                                        .max()
                                        .getAsDouble());
    }
}
