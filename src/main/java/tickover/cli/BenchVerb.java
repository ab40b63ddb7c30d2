package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.BenchLevel;
import tickover.diagnose.BenchLine;
import tickover.diagnose.BenchOdds;
import tickover.diagnose.BenchPattern;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchVerdict;
import tickover.session.BenchRun;

/** A removed pulley or bearing, turned alone. */
@Command(
        name = "bench",
        description = {
            "Judges a removed pulley or a bearing that is turned alone on a bench.",
            "",
            "The speed is that of the ring that turns: the inner on a shaft, the outer in an idler"
                    + " or tensioner. A given speed may be 2.5 %% off; it is sharpened from the"
                    + " record. All orders are per turn of that ring.",
            "",
            "Before anything turns: the still part clamped, the probe's lead tied off, eyes"
                    + " protected, nothing loose on you, and never a bearing in the hand or in"
                    + " compressed air. The maker's service information, local rules and licensed"
                    + " practice come first."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover bench idler.wav --rpm 1500 --scale 98.1"
                    + " --bearing balls=8,ball=6.747,pitch=28.5,rotating=outer",
            "  tickover bench shaft.wav --tach shaft.tach.csv"
                    + " --bearing balls=9,ball=7.94,pitch=39.04 --json"
        })
final class BenchVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "REC.wav", description = "The record; its first channel counts.")
    private Path file;

    @ArgGroup(multiplicity = "1")
    private Speed speed;

    @Option(
            names = "--pulses-per-turn",
            paramLabel = "N",
            description = "Marks of the tach per turn. Default: ${DEFAULT-VALUE}.")
    private int pulsesPerTurn = 1;

    @Option(
            names = "--bearing",
            required = true,
            converter = BearingOption.Converter.class,
            paramLabel = "SPEC",
            description =
                    "Internals in mm and degrees: balls=9,ball=7.94,pitch=39.04[,angle=0]"
                            + "[,rotating=inner].")
    private BearingOption bearing;

    @Option(
            names = "--scale",
            paramLabel = "MPS2",
            description =
                    "m/s² per full scale of a whole-number WAV, or per unit of a float WAV."
                            + " Default: ${DEFAULT-VALUE}.")
    private double scaleMps2 = 1;

    BenchVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** Where the speed comes from: one of the two. */
    private static final class Speed {
        @Option(names = "--rpm", paramLabel = "N", description = "Speed of the turning ring, rpm.")
        private Double rpm;

        @Option(
                names = "--tach",
                paramLabel = "FILE",
                description = "Pulse times of a mark on the turning ring: CSV, header time_s.")
        private Path tach;
    }

    @Override
    public Integer call() {
        if (!(scaleMps2 > 0 && Double.isFinite(scaleMps2))) {
            throw CliException.badInput("--scale " + scaleMps2 + ": need > 0 m/s²");
        }
        if (speed.rpm != null && !(speed.rpm > 0 && Double.isFinite(speed.rpm))) {
            throw CliException.badInput("--rpm " + speed.rpm + ": need > 0 rpm");
        }
        if (!(pulsesPerTurn >= 1)) {
            throw CliException.badInput("--pulses-per-turn " + pulsesPerTurn + ": need >= 1");
        }
        BenchRun run = BenchRun.read(file, scaleMps2, bearing.geometry(), bearing.turning());
        BenchResult result;
        try {
            result =
                    speed.rpm != null
                            ? run.atSpeed(speed.rpm)
                            : run.withTach(speed.tach, pulsesPerTurn);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(file + ": " + e.getMessage(), e);
        }
        if (shared.json()) {
            terminal.json(json(result));
        } else {
            terminal.lines(text(result));
        }
        return ExitCode.DONE;
    }

    private static List<String> text(BenchResult result) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Prose.fold("", headline(result.verdict())));
        lines.add(
                "How sure: "
                        + Prose.percent(result.probability())
                        + ", at "
                        + Prose.fixed(result.speedRpm(), 1)
                        + " rpm"
                        + (result.speedConfirmed()
                                ? ""
                                : " (taken on trust: the record does not show it)"));
        lines.add("");
        TextTable odds = new TextTable("Verdict", "", ">Probability");
        for (BenchOdds o : result.odds()) {
            odds.row(
                    o.verdict().word(), Prose.bar(o.probability()), Prose.percent(o.probability()));
        }
        lines.addAll(odds.lines());
        lines.add("");
        TextTable patterns =
                new TextTable(
                        "Pattern",
                        ">Order per turn",
                        ">Off, %",
                        ">Strength, dB",
                        ">By chance",
                        ">Level, m/s²");
        for (BenchPattern p : result.patterns()) {
            patterns.row(
                    p.fault(),
                    Prose.fixed(p.orderFound(), 4),
                    Prose.signed(100 * p.deviationRatio(), 2),
                    Prose.fixed(p.strengthDb(), 1),
                    Prose.three(p.falseAlarmProbability()),
                    Prose.three(p.levelRmsMps2()));
        }
        lines.addAll(patterns.lines());
        lines.add("");
        result.patterns().forEach(p -> lines.addAll(Prose.fold("", BenchSentence.of(p))));
        lines.add("");
        TextTable levels = new TextTable("Level", ">Value", "Unit", "What it is");
        for (BenchLevel l : result.levels()) {
            levels.row(l.name(), Prose.three(l.value()), l.unit(), l.text());
        }
        lines.addAll(levels.lines());
        result.notes().forEach(n -> lines.addAll(Prose.fold("Note: ", n)));
        return lines;
    }

    private static String headline(BenchVerdict verdict) {
        return switch (verdict) {
            case HEALTHY -> "Sound: no pattern that a fault would make.";
            case OUTER_RING -> "Damaged outer ring.";
            case INNER_RING -> "Damaged inner ring.";
            case ROLLING_ELEMENT -> "Damaged ball or roller.";
            case CAGE -> "Damaged or loose cage.";
            case UNCLEAR -> "The record does not decide.";
        };
    }

    private static JsonObject json(BenchResult result) {
        JsonObject o = new JsonObject();
        o.addProperty("verdict", result.verdict().word());
        Json.put(o, "probability", result.probability());
        o.add("lines", Json.array(result.lines(), BenchVerb::line));
        o.add("levels", Json.array(result.levels(), BenchVerb::level));
        o.add("odds", Json.array(result.odds(), BenchVerb::odds));
        o.add("patterns", Json.array(result.patterns(), BenchVerb::pattern));
        Json.put(o, "speedRpm", result.speedRpm());
        o.addProperty("speedConfirmed", result.speedConfirmed());
        o.add("notes", Json.words(result.notes()));
        return o;
    }

    private static JsonObject line(BenchLine l) {
        JsonObject o = new JsonObject();
        o.addProperty("fault", l.fault());
        o.addProperty("text", l.text());
        Json.put(o, "order", l.order());
        Json.put(o, "frequencyHz", l.frequencyHz());
        Json.put(o, "strengthDb", l.strengthDb());
        Json.put(o, "modulationRatio", l.modulationRatio());
        return o;
    }

    private static JsonObject level(BenchLevel l) {
        JsonObject o = new JsonObject();
        o.addProperty("name", l.name());
        Json.put(o, "value", l.value());
        o.addProperty("unit", l.unit());
        o.addProperty("text", l.text());
        return o;
    }

    private static JsonObject odds(BenchOdds odds) {
        JsonObject o = new JsonObject();
        o.addProperty("verdict", odds.verdict().word());
        Json.put(o, "probability", odds.probability());
        return o;
    }

    private static JsonObject pattern(BenchPattern p) {
        JsonObject o = new JsonObject();
        o.addProperty("fault", p.fault());
        o.addProperty("text", BenchSentence.of(p));
        Json.put(o, "orderFound", p.orderFound());
        Json.put(o, "deviationRatio", p.deviationRatio());
        Json.put(o, "strengthDb", p.strengthDb());
        Json.put(o, "modulationRatio", p.modulationRatio());
        Json.put(o, "levelRmsMps2", p.levelRmsMps2());
        Json.put(o, "falseAlarmProbability", p.falseAlarmProbability());
        return o;
    }
}
