package tickover.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;
import tickover.session.AcquisitionException;
import tickover.session.NoAngleException;
import tickover.store.StoreException;
import tickover.store.VisitFolderException;

/** Turns whatever ends a verb early into one sentence and an exit code. */
final class Failures {
    private final Terminal terminal;
    private final Path mistakeFile;

    /**
     * @param terminal where the sentence goes
     * @param mistakeFile where traces of the program's own mistakes are kept
     */
    Failures(Terminal terminal, Path mistakeFile) {
        this.terminal = terminal;
        this.mistakeFile = mistakeFile;
    }

    /** A command line that cannot be understood. */
    int usage(ParameterException error) {
        terminal.trace(error);
        CommandLine command = error.getCommandLine();
        String full = command.getCommandSpec().qualifiedName();
        terminal.note(complaint(error) + "; " + advice(error, full) + ".");
        return ExitCode.BAD_INPUT;
    }

    private static String complaint(ParameterException error) {
        if (error instanceof UnmatchedArgumentException unmatched && !unmatched.isUnknownOption()) {
            String word = unmatched.getUnmatched().get(0);
            boolean root = error.getCommandLine().getParent() == null;
            return root ? "there is no verb '" + word + "'" : "'" + word + "' is one word too many";
        }
        String said = oneLine(error.getMessage()).replaceFirst("^Error: ", "");
        return said.endsWith(".") ? said.substring(0, said.length() - 1) : said;
    }

    private static String advice(ParameterException error, String full) {
        String suggestions =
                error instanceof UnmatchedArgumentException unmatched
                        ? unmatched.getSuggestions().stream().collect(Collectors.joining(", "))
                        : "";
        return suggestions.isEmpty()
                ? "see '" + full + " --help'"
                : "did you mean " + suggestions + "? See '" + full + " --help'";
    }

    /** Anything that a verb threw. */
    int failed(Throwable error) {
        terminal.trace(error);
        if (error instanceof CliException known) {
            terminal.note(sentence(known.getMessage()));
            return known.exitCode();
        }
        if (error instanceof VisitFolderException input) {
            terminal.note(sentence(input.getMessage()));
            return ExitCode.BAD_INPUT;
        }
        if (error instanceof NoAngleException none) {
            terminal.note(sentence(none.getMessage()));
            return ExitCode.NO;
        }
        if (error instanceof AcquisitionException acquisition) {
            terminal.note(sentence(acquisition.getMessage()));
            return switch (acquisition.kind()) {
                case BAD_INPUT -> ExitCode.BAD_INPUT;
                case OUTSIDE -> ExitCode.OUTSIDE_FAILED;
            };
        }
        if (error instanceof StoreException store) {
            terminal.note(sentence(store.getMessage()));
            return exitCode(store.reason());
        }
        if (error instanceof UncheckedIOException wrapped) {
            return disk(wrapped.getCause());
        }
        if (error instanceof IOException io) {
            return disk(io);
        }
        if (error instanceof OutOfMemoryError) {
            terminal.note(
                    "not enough memory for a record of this length; cut it into shorter captures.");
            return ExitCode.OUTSIDE_FAILED;
        }
        return mistake(error);
    }

    private static int exitCode(StoreException.Reason reason) {
        return switch (reason) {
            case FOLDER_NOT_EMPTY,
                    OTHER_CONTENT,
                    NO_SUCH_VISIT,
                    NO_SUCH_VEHICLE,
                    NO_SUCH_LOG,
                    REMOVED,
                    BAD_ADDRESS,
                    BAD_ARCHIVE ->
                    ExitCode.BAD_INPUT;
            case NEWER_LOG, DAMAGED, BUSY, DISK_FULL, NO_PERMISSION, NO_SERVER, FAILED ->
                    ExitCode.OUTSIDE_FAILED;
        };
    }

    private int disk(IOException error) {
        String what =
                error instanceof FileSystemException file && file.getFile() != null
                        ? file.getFile() + ": " + reason(file)
                        : reason(error);
        terminal.note(sentence("reading or writing failed: " + what));
        return ExitCode.OUTSIDE_FAILED;
    }

    private static String reason(IOException error) {
        String kind =
                error.getClass()
                        .getSimpleName()
                        .replace("Exception", "")
                        .replaceAll("(?<=[a-z])(?=[A-Z])", " ")
                        .toLowerCase(Locale.ROOT);
        String said =
                error instanceof FileSystemException file ? file.getReason() : error.getMessage();
        return said == null ? kind : said;
    }

    /** The program's own mistake: the trace goes to a file, the user gets its name. */
    private int mistake(Throwable error) {
        String where;
        try {
            Files.createDirectories(mistakeFile.getParent());
            Files.writeString(
                    mistakeFile,
                    trace(error),
                    StandardCharsets.UTF_8,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.APPEND);
            where = "please report it with the file " + mistakeFile;
        } catch (IOException e) {
            where = "please report it with what TICKOVER_DEBUG=1 prints";
        }
        terminal.note(
                "the program made a mistake ("
                        + error.getClass().getSimpleName()
                        + (error.getMessage() == null ? "" : ": " + oneLine(error.getMessage()))
                        + "); "
                        + where
                        + ".");
        return ExitCode.OUTSIDE_FAILED;
    }

    private static String trace(Throwable error) {
        StringBuilder text = new StringBuilder();
        for (Throwable t = error; t != null; t = t.getCause()) {
            text.append(t).append('\n');
            Arrays.stream(t.getStackTrace())
                    .forEach(frame -> text.append("    at ").append(frame).append('\n'));
        }
        return text.append('\n').toString();
    }

    private static String sentence(String text) {
        String line = oneLine(text);
        return line.endsWith(".") || line.endsWith("!") || line.endsWith("?") ? line : line + ".";
    }

    private static String oneLine(String text) {
        return text == null ? "no reason was given" : text.strip().replaceAll("\\s*\\R\\s*", " ");
    }
}
