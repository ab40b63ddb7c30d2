package tickover.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchTake;
import tickover.session.BenchRun;
import tickover.session.NoAngleException;

/** A removed pulley or bearing, turned alone. */
@Command(
        name = "bench",
        description = {
            "Judges a removed pulley or a bearing that is turned alone on a bench.",
            "",
            "Says whether the bearing has a damaged ring, ball or cage, and beside that whether the"
                    + " part runs true, has play, or is rough all over. Roughness and running out"
                    + " of true are only certain against a known-good part: record one on the same"
                    + " bench at the same speed and give it with --good.",
            "",
            "The speed is that of the ring that turns: the inner on a shaft, the outer in an idler"
                    + " or tensioner, which --bearing has to say. A given speed may be 2.5 %% off;"
                    + " it is sharpened from the record. With neither --rpm nor --tach the speed"
                    + " is looked for in the record, and the answer is 'no' (exit code 1) where"
                    + " it does not show. All orders are per turn of that ring. All channels of"
                    + " the record count.",
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
                    + " --bearing balls=9,ball=7.94,pitch=39.04 --json",
            "  tickover bench idler.wav --good new-idler.wav --plot idler.svg"
                    + " --bearing balls=8,ball=6.747,pitch=28.5,rotating=outer"
        })
final class BenchVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "REC.wav", description = "The record, one to three channels.")
    private Path file;

    @ArgGroup(multiplicity = "0..1")
    private Speed speed = new Speed();

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

    @Option(
            names = "--good",
            paramLabel = "REC.wav",
            description =
                    "A known-good part of the same kind on the same bench. Three of them also tell"
                            + " what mounting and touching do; name the option again for each.")
    private List<Path> goods = List.of();

    @Option(
            names = "--good-rpm",
            paramLabel = "N",
            description =
                    "Speed of the known-good records, rpm. Default: found in them, else the"
                            + " record's own.")
    private Double goodRpm;

    @Option(
            names = "--plot",
            paramLabel = "FILE",
            description =
                    "Draw the envelope order spectrum with the bearing's lines named there, as"
                            + " FILE.svg or FILE.png.")
    private Path plot;

    BenchVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** Where the speed comes from: one of the two, or neither to look for it. */
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
        requireSpeed("--rpm", speed.rpm);
        requireSpeed("--good-rpm", goodRpm);
        if (!(pulsesPerTurn >= 1)) {
            throw CliException.badInput("--pulses-per-turn " + pulsesPerTurn + ": need >= 1");
        }
        BenchPlot.requireKnown(plot);
        BenchRun run = new BenchRun(scaleMps2, bearing.geometry(), bearing.turning());
        BenchTake take = take(run);
        List<BenchTake> likes = new ArrayList<>();
        for (Path good : goods) {
            likes.add(good(run, good, take));
        }
        BenchResult result;
        terminal.progress("judging " + file);
        try {
            result = BenchRun.judge(take, likes);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(file + ": " + e.getMessage(), e);
        } finally {
            terminal.progressDone();
        }
        if (plot != null) {
            BenchPlot.write(plot, result, bearing, file.getFileName().toString(), terminal);
        }
        if (shared.json()) {
            terminal.json(BenchJson.of(result, bearing));
        } else {
            terminal.lines(BenchText.lines(result, bearing));
        }
        return ExitCode.DONE;
    }

    private static void requireSpeed(String option, Double rpm) {
        if (rpm != null && !(rpm > 0 && Double.isFinite(rpm))) {
            throw CliException.badInput(option + " " + rpm + ": need > 0 rpm");
        }
    }

    private BenchTake take(BenchRun run) {
        try {
            if (speed.rpm != null) {
                return run.atSpeed(file, speed.rpm);
            }
            return speed.tach != null
                    ? run.withTach(file, speed.tach, pulsesPerTurn)
                    : run.findingSpeed(file);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(file + ": " + e.getMessage(), e);
        }
    }

    /** A known-good record turns at about the same speed, or it is of no use. */
    private BenchTake good(BenchRun run, Path good, BenchTake take) {
        try {
            if (goodRpm != null) {
                return run.atSpeed(good, goodRpm);
            }
            try {
                return run.findingSpeed(good);
            } catch (NoAngleException e) {
                terminal.note(
                        good
                                + " does not show its speed by itself; it is taken to turn like "
                                + file
                                + ", or give --good-rpm");
                return run.atSpeed(good, take.meanRpm());
            }
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(good + ": " + e.getMessage(), e);
        }
    }
}
