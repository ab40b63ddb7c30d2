package tickover.session;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.drive.PartLine;
import tickover.order.OrderSpectrum;
import tickover.order.Waterfall;
import tickover.report.SpectrumPicture;
import tickover.report.VisitReport;
import tickover.report.WaterfallPicture;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/** Gathers what a report page shows of one visit, and of an earlier one where there is one. */
public final class ReportMaker {
    private static final double SHOWN_ORDERS = 40;
    private static final int TURNS_PER_FRAME = 32;
    private static final int X_CHANNEL = 0;

    private final Visit visit;
    private final VisitResult result;
    private final DriveModel model;
    private final VisitReport report;

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
    }

    /**
     * Adds what changed since an earlier visit.
     *
     * @param earlier the earlier visit
     * @param earlierResult what it says
     * @return this
     */
    public ReportMaker against(Visit earlier, VisitResult earlierResult) {
        report.changes(
                BeforeAfter.visits(earlierResult, result),
                "Held against the visit of " + earlier.date().toLocalDate() + ", like with like.");
        return this;
    }

    /**
     * Draws the figures and writes the page.
     *
     * @return the whole HTML document
     * @throws tickover.store.StoreException if a recording cannot be read
     */
    public String html() {
        showcase().ifPresent(this::addFigures);
        return report.html();
    }

    /** The suspect's own point if it was probed, a sweep if there is one, the longest record. */
    private Optional<VisitCapture> showcase() {
        String suspect = result.findings().first().component();
        return result.captures().stream()
                .sorted(
                        Comparator.comparing(
                                        (CaptureSummary c) -> !c.label().point().equals(suspect))
                                .thenComparing(c -> -(c.maxSpeedRpm() - c.minSpeedRpm()))
                                .thenComparing(c -> -c.durationS()))
                .flatMap(c -> visit.capture(c.label().id()).stream())
                .filter(c -> c.removed().isEmpty())
                .findFirst();
    }

    private void addFigures(VisitCapture capture) {
        TrackedCapture tracked;
        try {
            tracked = TrackedCapture.of(visit.vehicle(), capture);
        } catch (NoAngleException e) {
            return;
        }
        double highest = Math.min(SHOWN_ORDERS, tracked.highestOrders());
        String where =
                "capture "
                        + capture.label().id()
                        + " at "
                        + capture.label().point()
                        + ", "
                        + capture.label().regime().word()
                        + ", "
                        + capture.label().condition();
        OrderSpectrum spectrum = tracked.spectrum(X_CHANNEL, highest, TURNS_PER_FRAME);
        String suspect = result.findings().first().component();
        List<PartLine> lines =
                model.lines().stream().filter(l -> l.part().equals(suspect)).toList();
        report.plot(
                SpectrumPicture.of(spectrum, "Order spectrum, " + where, highest, lines),
                "Average over "
                        + spectrum.frames()
                        + " Hann frames; rms of a line that would give its bin alone."
                        + (lines.isEmpty()
                                ? ""
                                : " Dashed: where " + suspect + " can have its lines."));
        TrackedCapture.EnvelopeSpectrum envelope =
                tracked.envelopeSpectrum(X_CHANNEL, highest, TURNS_PER_FRAME);
        if (envelope.mean() > 0) {
            report.plot(
                    SpectrumPicture.ofEnvelope(
                            envelope.spectrum(),
                            envelope.mean(),
                            "Rhythm of the ringing, " + where,
                            highest,
                            lines),
                    String.format(
                            Locale.ROOT,
                            "How the power between %.1f and %.1f kHz comes and goes: knocks of a"
                                    + " bearing stand here, not in the spectrum above.",
                            envelope.loHz() / 1000,
                            envelope.hiHz() / 1000));
        }
        Waterfall.Axis axis = Waterfall.Axis.TIME;
        Waterfall waterfall = tracked.waterfall(X_CHANNEL, highest, TURNS_PER_FRAME / 2, axis);
        if (!waterfall.rows().isEmpty()) {
            report.heatMap(
                    WaterfallPicture.of(waterfall, "Waterfall, " + where, axis, highest),
                    "Orders stand upright whatever the speed does; what keeps its frequency"
                            + " bends.");
        }
    }
}
