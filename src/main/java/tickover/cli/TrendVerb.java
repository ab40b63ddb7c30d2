package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.SeriesTrend;
import tickover.diagnose.SisterComparison;
import tickover.diagnose.TimeToLevel;
import tickover.diagnose.VehicleTrend;
import tickover.drive.PartWords;
import tickover.report.Picture;
import tickover.report.TrendPicture;
import tickover.store.Log;

/** A part's level over the visits of one vehicle. */
@Command(
        name = "trend",
        description = {
            "Shows a part's level over the visits of a vehicle, like with like: same point, axis,"
                    + " mount, regime, condition and speed band. What differs is named, not mixed"
                    + " in. Without a part: every part in one table.",
            "",
            "The newest level is held against the earlier ones since the last repair mark, with"
                + " limits that are right for few visits; small lasting shifts, the rate of change"
                + " and sister vehicles of the same drive are told. Ends with exit code 1 if the"
                + " log has no level of the part."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover trend ML-07",
            "  tickover trend ML-07 idler",
            "  tickover trend ML-07 idler --rise 12",
            "  tickover trend ML-07 idler --png idler.png --csv idler.csv",
            "  tickover trend ML-07 idler --json"
        })
final class TrendVerb implements Callable<Integer> {
    private static final int WIDTH_PIXELS = 1000;
    private static final int HEIGHT_PIXELS = 480;

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(index = "0", paramLabel = "UNIT", description = "The fleet's name of the vehicle.")
    private String unit;

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "PART",
            description =
                    "A pulley (water-pump or \"water pump\"), belt:NAME, engine or injectors.")
    private String part;

    @Option(
            names = "--place",
            paramLabel = "N",
            description = "Show the part's N-th place; the answer lists them. Default: 1.")
    private int place = 1;

    @Option(
            names = "--rise",
            paramLabel = "DB",
            description =
                    "Tell when the level will have risen by so many dB above the baseline's mean.")
    private Double riseDb;

    @Option(
            names = "--reach",
            paramLabel = "MPS2",
            description = "Tell when the level will reach so many m/s².")
    private Double reachMps2;

    @Option(names = "--png", paramLabel = "FILE", description = "Also draw the trend as PNG.")
    private Path png;

    @Option(names = "--svg", paramLabel = "FILE", description = "Also draw the trend as SVG.")
    private Path svg;

    @Option(
            names = "--csv",
            paramLabel = "FILE",
            description = "Also write every level of every place as CSV; - is standard output.")
    private Path csv;

    TrendVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        requireSense();
        Visits visits = new Visits(terminal, shared.log());
        visits.analyseAll(unit);
        VehicleTrend vehicle;
        List<SisterComparison> sisters;
        try (Log log = visits.openLog()) {
            Fleets.refresh(log, terminal);
            vehicle = log.history().trend(unit);
            if (part != null) {
                part = PartWords.find(part, vehicle.parts()).orElse(part);
            }
            List<VehicleTrend.Judged> places = of(vehicle);
            if (places.isEmpty()) {
                return nothing(vehicle.parts());
            }
            if (place > places.size()) {
                throw CliException.badInput(
                        "--place "
                                + place
                                + ": "
                                + part
                                + " has "
                                + places.size()
                                + (places.size() == 1 ? " place" : " places"));
            }
            sisters =
                    part == null
                            ? List.of()
                            : SisterComparison.of(
                                            places.get(place - 1).trend().series(),
                                            log.history().sisters(unit, part))
                                    .stream()
                                    .toList();
        }
        answer(vehicle, sisters);
        return ExitCode.DONE;
    }

    private void requireSense() {
        if (part == null && (png != null || svg != null || riseDb != null || reachMps2 != null)) {
            throw CliException.badInput("a picture or a level to reach needs a PART");
        }
        if (place < 1) {
            throw CliException.badInput("--place " + place + ": places count from 1");
        }
        if (reachMps2 != null && !(reachMps2 > 0)) {
            throw CliException.badInput("--reach " + reachMps2 + ": need more than 0 m/s²");
        }
        if (riseDb != null && reachMps2 != null) {
            throw CliException.badInput("--rise and --reach both set a level; give one");
        }
        if (csvToOutput() && shared.json()) {
            throw CliException.badInput(
                    "--csv - and --json both want standard output; name a file for the CSV");
        }
    }

    private boolean csvToOutput() {
        return csv != null && csv.toString().equals("-");
    }

    private List<VehicleTrend.Judged> of(VehicleTrend vehicle) {
        return part == null ? vehicle.series() : vehicle.of(part);
    }

    private int nothing(List<String> known) {
        if (shared.json()) {
            terminal.json(head());
        }
        terminal.note(
                "the log at "
                        + shared.log()
                        + " has no level of "
                        + (part == null ? "any part" : part)
                        + " of "
                        + unit
                        + (known.isEmpty()
                                ? "; 'tickover visits' lists what is there."
                                : "; it has those of " + String.join(", ", known) + "."));
        return ExitCode.NO;
    }

    private JsonObject head() {
        JsonObject o = new JsonObject();
        o.addProperty("unit", unit);
        if (part != null) {
            o.addProperty("part", part);
        }
        o.add("series", Json.array(List.<VehicleTrend.Judged>of(), TrendTable::json));
        return o;
    }

    private void answer(VehicleTrend vehicle, List<SisterComparison> sisters) {
        List<VehicleTrend.Judged> places = of(vehicle);
        SeriesTrend shown = places.get(place - 1).trend();
        OptionalDouble levelDb = levelDb(shown);
        Optional<TimeToLevel> reach =
                levelDb.isPresent()
                        ? Optional.of(TimeToLevel.of(shown, levelDb.getAsDouble()))
                        : Optional.empty();
        if (png != null || svg != null) {
            Picture picture =
                    TrendPicture.of(
                            shown,
                            unit
                                    + ", "
                                    + PartWords.the(part)
                                    + " "
                                    + shown.series().place().words());
            if (png != null) {
                OutputFile.write(png, picture.png(WIDTH_PIXELS, HEIGHT_PIXELS), terminal);
            }
            if (svg != null) {
                OutputFile.write(svg, utf8(picture.svg(WIDTH_PIXELS, HEIGHT_PIXELS)), terminal);
            }
        }
        if (csvToOutput()) {
            terminal.out().print(TrendTable.csv(unit, places));
            return;
        }
        if (csv != null) {
            OutputFile.write(csv, utf8(TrendTable.csv(unit, places)), terminal);
        }
        if (shared.json()) {
            JsonObject o = head();
            o.addProperty("seriesAsked", vehicle.asked());
            Json.put(o, "falseAlarmsPerVisit", VehicleTrend.FALSE_ALARMS_PER_VISIT);
            o.add("series", Json.array(places, TrendTable::json));
            sisters.forEach(s -> o.add("sisters", TrendTable.json(s)));
            reach.ifPresent(r -> o.add("reach", TrendTable.json(r, levelDb.getAsDouble())));
            terminal.json(o);
        } else if (part == null) {
            terminal.lines(TrendText.overview(unit, vehicle));
        } else {
            terminal.lines(new TrendText(unit, vehicle, part, place - 1).lines(sisters));
            reach.ifPresent(
                    r ->
                            terminal.lines(
                                    Prose.fold("", TrendTable.sentence(r, levelDb.getAsDouble()))));
        }
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private OptionalDouble levelDb(SeriesTrend shown) {
        if (reachMps2 != null) {
            return OptionalDouble.of(20 * Math.log10(reachMps2));
        }
        if (riseDb == null) {
            return OptionalDouble.empty();
        }
        if (shown.baseline().isEmpty()) {
            terminal.note("--rise needs a baseline, and the visits are too few for one; left out.");
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(shown.baseline().get().meanDb() + riseDb);
    }
}
