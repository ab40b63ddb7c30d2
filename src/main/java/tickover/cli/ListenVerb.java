package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.drive.PartWords;
import tickover.session.ListeningFile;
import tickover.session.Loudness;
import tickover.session.NotHeardException;
import tickover.session.PartAudio;
import tickover.session.PartListening;
import tickover.session.TrackedCapture;

/** A part's sound alone. */
@Command(
        name = "listen",
        description = {
            "Writes one part's sound alone as a WAV file that any player plays: the tones at whole"
                    + " multiples of its turn, and what rings in the rhythm of its bearing or its"
                    + " turn. Everything else in the capture is gone.",
            "",
            "With --before and --after both sounds are brought to one loudness, as the ear weighs"
                    + " it, so that their character compares; --keep gain leaves the quieter one"
                    + " quieter. One -o puts them after each other with a pause, two give each its"
                    + " own file. The gain is told in dB; nothing is ever clipped.",
            "",
            "Tones below 100 Hz are lost on small loudspeakers: use headphones. Ends with exit code"
                    + " 1 if nothing of the part is heard."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover listen ML-07-today#c02 --part idler -o idler.wav",
            "  tickover listen ML-07-today#c02 --part alternator --how orders -o whine.wav",
            "  tickover listen --before ML-07-today#c02 --after ML-07-after-repair#c02 --part idler"
                    + " -o both.wav",
            "  tickover listen --before 0195f0c2#c02 --after 0195f7aa#c02 --part idler -o old.wav"
                    + " -o new.wav --keep gain"
        })
final class ListenVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            arity = "0..1",
            paramLabel = "CAPTURE",
            description = "The capture, as VISIT#c01; or name two with --before and --after.")
    private String capture;

    @Option(names = "--before", paramLabel = "CAPTURE", description = "The earlier capture.")
    private String before;

    @Option(names = "--after", paramLabel = "CAPTURE", description = "The later capture.")
    private String after;

    @Option(
            names = "--part",
            required = true,
            paramLabel = "PULLEY",
            description = "A pulley of the vehicle, or 'engine'.")
    private String part;

    @Option(
            names = "--how",
            description = "What of it: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
    private How how = How.BOTH;

    @Option(
            names = "--line",
            paramLabel = "KIND",
            description =
                    "The rhythm to ring in, such as bearing-outer-ring or turn. Default: the one"
                            + " that stands out most, before and after alike.")
    private String line = "";

    @Option(
            names = "--keep",
            description =
                    "What to keep equal before and after: ${COMPLETION-CANDIDATES}. Default:"
                            + " ${DEFAULT-VALUE}.")
    private Keep keep = Keep.LOUDNESS;

    @Option(
            names = "-o",
            required = true,
            paramLabel = "FILE.wav",
            description = "Where to write; twice for --before and --after apart.")
    private List<Path> files;

    @Option(names = "--axis", description = "Channel of a three-axis capture. Default: x.")
    private Axis axis = Axis.X;

    ListenVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** What to listen to, as it is written on the command line. */
    private enum How {
        ORDERS(PartListening.How.ORDERS),
        RINGING(PartListening.How.RINGING),
        BOTH(PartListening.How.BOTH);

        private final PartListening.How how;

        How(PartListening.How how) {
            this.how = how;
        }

        /** The name as it is written on the command line. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** What to keep equal, as it is written on the command line. */
    private enum Keep {
        LOUDNESS(Loudness.Keep.LOUDNESS),
        GAIN(Loudness.Keep.GAIN);

        private final Loudness.Keep keep;

        Keep(Loudness.Keep keep) {
            this.keep = keep;
        }

        /** The name as it is written on the command line. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Override
    public Integer call() {
        List<String> names = captures();
        if (files.size() > names.size() || files.stream().distinct().count() < files.size()) {
            throw CliException.badInput(
                    files.size()
                            + " files for "
                            + names.size()
                            + " captures: name a file for each,"
                            + " or one for all");
        }
        files.forEach(OutputFile::requirePlace);
        List<PartAudio> sounds = new ArrayList<>();
        List<Double> gains;
        try {
            for (String name : names) {
                // The later capture is listened to in the rhythm of the earlier one.
                sounds.add(sound(name, sounds.isEmpty() ? line : sounds.get(0).rhythm()));
            }
            gains = Loudness.gains(sounds, keep.keep);
        } catch (NotHeardException e) {
            terminal.note(e.getMessage());
            return ExitCode.NO;
        } finally {
            terminal.progressDone();
        }
        write(sounds, gains);
        if (shared.json()) {
            JsonArray answers = new JsonArray();
            for (int i = 0; i < names.size(); i++) {
                answers.add(json(names.get(i), sounds, gains, i));
            }
            terminal.json(answers);
        } else {
            for (int i = 0; i < names.size(); i++) {
                say(names.get(i), sounds.get(i), gains.get(i));
            }
        }
        return ExitCode.DONE;
    }

    private List<String> captures() {
        boolean pair = before != null && after != null;
        boolean half = (before != null) != (after != null);
        if (half || pair == (capture != null)) {
            throw CliException.badInput(
                    "name either one capture, such as VISIT#c01, or two with --before and --after");
        }
        return pair ? List.of(before, after) : List.of(capture);
    }

    private PartAudio sound(String name, String rhythm) {
        CaptureHandle handle = CaptureHandle.find(name, new Visits(terminal, shared.log()));
        terminal.progress("listening to " + PartWords.the(part) + " in " + name);
        TrackedCapture tracked = TrackedCapture.of(handle.of().visit().vehicle(), handle.capture());
        try {
            return PartListening.of(
                    handle.of().visit().vehicle(),
                    tracked,
                    axis.channelOf(tracked, name),
                    part,
                    how.how,
                    rhythm);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(name + ": " + e.getMessage(), e);
        }
    }

    private void write(List<PartAudio> sounds, List<Double> gains) {
        try {
            if (files.size() == sounds.size()) {
                for (int i = 0; i < files.size(); i++) {
                    ListeningFile.write(
                            files.get(i), List.of(sounds.get(i)), List.of(gains.get(i)));
                }
            } else {
                ListeningFile.write(files.get(0), sounds, gains);
            }
        } catch (IllegalArgumentException e) {
            throw CliException.badInput(e.getMessage(), e);
        } catch (IOException e) {
            throw CliException.outsideFailed("the sound cannot be written: " + e.getMessage(), e);
        }
        files.forEach(file -> terminal.note("wrote " + file));
    }

    private void say(String name, PartAudio sound, double gain) {
        terminal.lines(
                Prose.fold(
                        "",
                        PartWords.start(sound.part())
                                + " in "
                                + name
                                + ": "
                                + Prose.three(sound.rmsMps2())
                                + " m/s² rms, gain "
                                + Prose.signed(Loudness.gainDb(gain), 1)
                                + " dB (0 dB puts 1 m/s² at full scale)"));
        sound.notes().forEach(note -> terminal.lines(Prose.fold("  ", note)));
    }

    private JsonObject json(String name, List<PartAudio> sounds, List<Double> gains, int i) {
        JsonObject o = new JsonObject();
        o.addProperty("capture", name);
        o.addProperty("part", sounds.get(i).part());
        o.addProperty("file", files.get(Math.min(i, files.size() - 1)).toString());
        Json.put(o, "sampleRateHz", sounds.get(i).sampleRateHz());
        Json.put(o, "rmsMps2", sounds.get(i).rmsMps2());
        Json.put(o, "gainDb", Loudness.gainDb(gains.get(i)));
        o.add("notes", Json.words(sounds.get(i).notes()));
        return o;
    }
}
