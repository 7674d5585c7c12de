package dev.splicebook;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** Starts the service. */
@SpringBootApplication
public class SplicebookApplication {

    public static void main(String[] arguments) {
        SpringApplication.run(SplicebookApplication.class, arguments);
    }
}
