package tickover.store;

import java.io.IOException;
import java.nio.file.Path;
import tickover.align.CaptureSignal;

/** Samples of a capture that is to be written: held in memory, or in a WAV file of their own. */
public sealed interface DraftSamples permits DraftSamples.Held, WrittenWav {
    /**
     * Returns what full scale is worth.
     *
     * @return m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     */
    double scaleMps2();

    /**
     * Puts them where the visit folder names them.
     *
     * @param wav the file, which must not exist
     * @throws IOException if it cannot be written
     */
    void putAt(Path wav) throws IOException;

    /**
     * Samples in memory.
     *
     * @param signal the samples
     * @param encoding how they are stored
     * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     */
    record Held(CaptureSignal signal, WavEncoding encoding, double scaleMps2)
            implements DraftSamples {
        public Held {
            if (!(scaleMps2 > 0 && Double.isFinite(scaleMps2))) {
                throw new IllegalArgumentException("scaleMps2=" + scaleMps2 + ", need > 0 m/s²");
            }
        }

        @Override
        public void putAt(Path wav) throws IOException {
            double[][] accelMps2 = new double[signal.channels()][];
            for (int c = 0; c < accelMps2.length; c++) {
                accelMps2[c] = signal.accelMps2(c);
            }
            WavFile.write(wav, signal.sampleRateHz(), accelMps2, encoding, scaleMps2);
        }
    }
}
