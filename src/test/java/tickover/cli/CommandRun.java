package tickover.cli;

import com.google.gson.JsonElement;
import com.google.gson.JsonParser;
import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;

/** One command line run in this process, with everything that it said. */
record CommandRun(int exitCode, String out, String err) {
    /** Runs a command with its log in a folder of the test's own. */
    static CommandRun in(Path data, String... args) {
        return in(Map.of("TICKOVER_DATA", data.toString()), args);
    }

    static CommandRun in(Map<String, String> environment, String... args) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code =
                TickoverCommand.run(
                        args,
                        new PrintStream(out, false, StandardCharsets.UTF_8),
                        new PrintStream(err, false, StandardCharsets.UTF_8),
                        environment,
                        wish -> ExitCode.DONE);
        return new CommandRun(
                code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    /** Parses the output, strictly, as exactly one JSON document. */
    JsonElement json() {
        try (JsonReader reader = new JsonReader(new StringReader(out))) {
            reader.setStrictness(Strictness.STRICT);
            JsonElement document = JsonParser.parseReader(reader);
            if (reader.peek() != JsonToken.END_DOCUMENT) {
                throw new AssertionError("more than one document: " + out);
            }
            return document;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
