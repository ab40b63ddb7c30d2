package tickover.session;

import com.google.gson.JsonParseException;
import java.util.Optional;
import java.util.OptionalDouble;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.link.Chunk;
import tickover.store.VisitFolder;
import tickover.store.VisitFolderException;

/**
 * Where a recording's tach is and what its edges are worth, from what the recording says itself.
 * One thread.
 */
final class TachMark {
    private static final String CRANK = "crank";

    private int probe = -1;
    private int board = -1;
    private String pulley = CRANK;
    private int pulsesPerTurn = 1;
    private DriveModel drive;

    /** Of the marked pulley; 0 while that is not known. Edges come often, and notes seldom. */
    private double turnsPerCrankTurn = 1;

    void source(Chunk chunk) {
        try {
            switch (SourceInfo.parse(chunk.bytes()).role()) {
                case PROBE -> probe = probe < 0 ? chunk.source() : probe;
                case TACH -> board = board < 0 ? chunk.source() : board;
                case ADAPTER -> {}
            }
        } catch (JsonParseException e) {
            // A newer version's device, which is passed over everywhere.
        }
    }

    void note(Chunk chunk) {
        RecordingNote note = RecordingNote.parse(chunk.bytes()).orElse(null);
        if (note == null) {
            return;
        }
        switch (note.kind()) {
            case TACH -> {
                pulley = note.tachPulley();
                pulsesPerTurn = note.pulsesPerTurn();
            }
            case VEHICLE -> drive = drive(note.vehicleToml());
            case BEGIN, END, UNREADABLE -> {}
        }
        double known = pulley.equals(CRANK) ? 1 : 0;
        turnsPerCrankTurn =
                drive == null
                        ? known
                        : drive.part(pulley).map(DrivePart::turnsPerCrankTurn).orElse(known);
    }

    private static DriveModel drive(String toml) {
        try {
            return DriveModel.of(VisitFolder.vehicleOf(toml));
        } catch (VisitFolderException e) {
            // Importing says what is wrong with it; here it only gives no ratio.
            return null;
        }
    }

    /** The one device whose edges count; negative if there is none. */
    int source() {
        return board < 0 ? probe : board;
    }

    /** Edges per turn of the marked pulley: after so many the same mark passes again. */
    int pulsesPerTurn() {
        return pulsesPerTurn;
    }

    /** The vehicle's drive, if the recording tells it and it can be read. */
    Optional<DriveModel> drive() {
        return Optional.ofNullable(drive);
    }

    /** Edges per turn of the crank; empty if the marked pulley's ratio is not known. */
    OptionalDouble pulsesPerCrankTurn() {
        return turnsPerCrankTurn > 0
                ? OptionalDouble.of(pulsesPerTurn * turnsPerCrankTurn)
                : OptionalDouble.empty();
    }
}
