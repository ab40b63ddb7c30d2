package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.LevelTrend;
import tickover.report.TrendPicture;
import tickover.store.LevelRow;
import tickover.store.Log;

/** One part's level over the visits of one vehicle. */
@Command(
        name = "trend",
        description = {
            "Shows a part's level over the visits of a vehicle, like with like: same point, axis,"
                    + " mount, regime and condition.",
            "",
            "The newest level is held against the earlier ones. With three or more of them it is"
                + " said whether it stands out of their scatter; with fewer there is no telling,"
                + " and that is said. Ends with exit code 1 if the log has no level of the part."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover trend ML-07 idler",
            "  tickover trend ML-07 idler --png idler.png",
            "  tickover trend ML-07 idler --json"
        })
final class TrendVerb implements Callable<Integer> {
    private static final int WIDTH_PIXELS = 1000;
    private static final int HEIGHT_PIXELS = 480;
    private static final int BAR_MARKS = 30;

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(index = "0", paramLabel = "UNIT", description = "The fleet's name of the vehicle.")
    private String unit;

    @Parameters(
            index = "1",
            paramLabel = "PART",
            description = "A pulley's name, belt:NAME, engine or injectors.")
    private String part;

    @Option(names = "--png", paramLabel = "FILE", description = "Also draw the trend as PNG.")
    private Path png;

    TrendVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Visits visits = new Visits(terminal, shared.dataFolder());
        visits.analyseAll(unit);
        List<LevelRow> rows;
        try (Log log = visits.openLog()) {
            rows = log.levelHistory(unit, part);
        }
        List<TrendSeries> series = TrendSeries.of(rows, part);
        if (png != null && !series.isEmpty()) {
            OutputFile.write(png, picture(series.get(0)), terminal);
        }
        if (shared.json()) {
            terminal.json(json(series));
        } else if (!series.isEmpty()) {
            terminal.lines(text(unit, part, series));
        }
        if (series.isEmpty()) {
            terminal.note(
                    "the log at "
                            + shared.dataFolder()
                            + " has no level of "
                            + part
                            + " of "
                            + unit
                            + "; 'tickover visits' lists what is there.");
            return ExitCode.NO;
        }
        return ExitCode.DONE;
    }

    private byte[] picture(TrendSeries series) {
        return TrendPicture.of(
                        series.points().stream()
                                .map(
                                        p ->
                                                new TrendPicture.Level(
                                                        p.date(),
                                                        p.levelRmsMps2(),
                                                        p.standardErrorMps2()))
                                .toList(),
                        unit + ", " + part + " " + series.place().words())
                .png(WIDTH_PIXELS, HEIGHT_PIXELS);
    }

    /** The series at the first place, as a table with a judgement. */
    static List<String> text(String unit, String part, List<TrendSeries> all) {
        TrendSeries series = all.get(0);
        List<String> lines = new ArrayList<>();
        lines.add(unit + ", level of " + part + " " + series.place().words());
        lines.add("");
        TextTable table =
                new TextTable(
                        "Date",
                        ">Odometer, km",
                        ">Speed, rpm",
                        ">Level, m/s²",
                        ">+-",
                        ">Touches",
                        "");
        double loudest =
                series.points().stream()
                        .mapToDouble(TrendSeries.Point::levelRmsMps2)
                        .max()
                        .orElse(0);
        for (TrendSeries.Point p : series.points()) {
            int marks = loudest > 0 ? (int) Math.round(BAR_MARKS * p.levelRmsMps2() / loudest) : 0;
            table.row(
                    p.date().toLocalDate().toString(),
                    p.odometer().km().isPresent()
                            ? Prose.fixed(p.odometer().km().getAsDouble(), 0)
                            : "-",
                    Prose.fixed(p.meanSpeedRpm(), 0),
                    Prose.three(p.levelRmsMps2()),
                    Prose.three(p.standardErrorMps2()),
                    Integer.toString(p.touches()),
                    "#".repeat(marks));
        }
        lines.addAll(table.lines());
        lines.add("");
        series.trend().forEach(t -> lines.addAll(Prose.fold("", verdict(t))));
        if (all.size() > 1) {
            int others = all.size() - 1;
            lines.add(
                    "There are levels at "
                            + others
                            + (others == 1 ? " other place" : " other places or loads")
                            + "; --json has all.");
        }
        return lines;
    }

    private static String verdict(LevelTrend trend) {
        String change =
                "The newest level is "
                        + Prose.signed(trend.changeDb(), 1)
                        + " dB re the mean of the earlier visits; ";
        if (trend.limitDb().isEmpty()) {
            return change
                    + "with fewer than "
                    + LevelTrend.FEWEST_EARLIER
                    + " earlier visits nobody can say how much of that is scatter.";
        }
        String limit = Prose.fixed(trend.limitDb().getAsDouble(), 1) + " dB";
        return change
                + (trend.standsOut()
                        ? "that is more than the " + limit + " that scatter would explain."
                        : "scatter would explain up to " + limit + ".");
    }

    private JsonObject json(List<TrendSeries> all) {
        JsonObject o = new JsonObject();
        o.addProperty("unit", unit);
        o.addProperty("part", part);
        o.add("series", Json.array(all, TrendVerb::series));
        return o;
    }

    private static JsonObject series(TrendSeries s) {
        JsonObject o = new JsonObject();
        o.addProperty("point", s.place().point());
        o.addProperty("axis", s.place().axis());
        o.addProperty("mount", s.place().mount().word());
        o.addProperty("regime", s.place().regime().word());
        o.addProperty("condition", s.place().condition().toString());
        s.trend()
                .forEach(
                        t -> {
                            Json.put(o, "changeDb", t.changeDb());
                            Json.putIfPresent(o, "limitDb", t.limitDb());
                            o.addProperty("standsOut", t.standsOut());
                        });
        o.add("levels", Json.array(s.points(), TrendVerb::point));
        return o;
    }

    private static JsonObject point(TrendSeries.Point p) {
        JsonObject o = new JsonObject();
        o.addProperty("visit", p.visit().toString());
        o.addProperty("date", p.date().toString());
        Json.putIfPresent(o, "odometerKm", p.odometer().km());
        Json.put(o, "meanSpeedRpm", p.meanSpeedRpm());
        Json.put(o, "levelRmsMps2", p.levelRmsMps2());
        Json.put(o, "standardErrorMps2", p.standardErrorMps2());
        o.addProperty("touches", p.touches());
        return o;
    }
}
