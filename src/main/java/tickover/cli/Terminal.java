package tickover.cli;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonElement;
import java.io.PrintStream;
import java.util.Map;

/**
 * Where a verb speaks: answers to standard output, everything else to standard error. One thread.
 */
final class Terminal {
    private static final Gson PRETTY =
            new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();

    private final PrintStream out;
    private final PrintStream err;
    private final Map<String, String> environment;
    private final boolean watched;

    /**
     * @param out answers
     * @param err messages
     * @param environment the process's environment
     * @param watched true if a person sees the error stream, so that progress is worth showing
     */
    Terminal(PrintStream out, PrintStream err, Map<String, String> environment, boolean watched) {
        this.out = out;
        this.err = err;
        this.environment = Map.copyOf(environment);
        this.watched = watched;
    }

    /** Prints one line of an answer. */
    void line(String text) {
        out.print(text);
        out.print('\n');
    }

    /** Prints an empty line. */
    void gap() {
        line("");
    }

    /** Prints lines of an answer. */
    void lines(Iterable<String> texts) {
        texts.forEach(this::line);
    }

    /** Prints the one JSON document of an answer. */
    void json(JsonElement document) {
        line(PRETTY.toJson(document));
    }

    /** Says something beside the answer. */
    void note(String sentence) {
        err.print("tickover: " + sentence + "\n");
        err.flush();
    }

    /** Says several lines beside the answer. */
    void aside(Iterable<String> texts) {
        texts.forEach(t -> err.print(t + "\n"));
        err.flush();
    }

    /** Rings, for eyes that are elsewhere; only where a person sees the error stream. */
    void bell() {
        if (watched) {
            err.print("\u0007");
            err.flush();
        }
    }

    /** Shows what is being done, on one line that is wiped by {@link #progressDone}. */
    void progress(String what) {
        if (watched) {
            err.print("\r\u001b[Ktickover: " + what + " …");
            err.flush();
        }
    }

    /** Wipes the progress line. */
    void progressDone() {
        if (watched) {
            err.print("\r\u001b[K");
            err.flush();
        }
    }

    /** Prints the trace of an error for whoever asked for it. */
    void trace(Throwable error) {
        if (!environment.getOrDefault("TICKOVER_DEBUG", "").isEmpty()) {
            error.printStackTrace(err);
        }
    }

    Map<String, String> environment() {
        return environment;
    }

    PrintStream out() {
        return out;
    }

    PrintStream err() {
        return err;
    }
}
