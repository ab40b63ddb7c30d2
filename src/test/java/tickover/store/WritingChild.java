package tickover.store;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.UUID;

/**
 * A process that writes notes, repair marks and results into a log that others write to as well.
 * Arguments: the data folder, a word that marks what is its own, how often.
 */
final class WritingChild {
    private WritingChild() {}

    public static void main(String[] args) {
        write(Path.of(args[0]), args[1], Integer.parseInt(args[2]));
    }

    static void write(Path data, String word, int times) {
        System.out.println("writing " + word);
        for (int i = 0; i < times; i++) {
            // Opened anew each time, as every command does.
            try (Log log = Log.open(data)) {
                KeptVisit kept = log.visits().get(0);
                LocalDateTime at = kept.date().plusDays(i + 1L);
                String text = word + " " + i;
                log.history().addNote(new Note(UUID.randomUUID(), kept.unit(), at, "", "", text));
                log.history().addRepair(kept.unit(), at, "idler", text);
                Visit visit = log.visit(kept.id()).orElseThrow();
                log.saveResult(visit.id(), Results.of(visit, 1 + i));
                log.history().refresh((done, total) -> {});
            }
        }
    }
}
