package dev.splicebook.web;

import java.util.List;
import java.util.Map;
import org.springframework.boot.jackson.autoconfigure.JsonMapperBuilderCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.PropertySource;
import org.springframework.format.FormatterRegistry;
import org.springframework.http.converter.HttpMessageConverters;
import org.springframework.security.web.firewall.RequestRejectedHandler;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** Fits what every endpoint shares into Spring MVC, Spring Security and Jackson. */
@Configuration(proxyBeanMethods = false)
@PropertySource("classpath:dev/splicebook/web/web.properties")
class WebConfiguration implements WebMvcConfigurer {

    @Override
    public void configureMessageConverters(HttpMessageConverters.ServerBuilder builder) {
        builder.addCustomConverter(new StrictBodyConverter());
    }

    @Override
    public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
        resolvers.add(new PageQueryResolver());
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(new QueryNames());
    }

    @Override
    public void addFormatters(FormatterRegistry registry) {
        registry.addConverter(new ParameterConverter());
    }

    @Bean
    JsonMapperBuilderCustomizer writingAsRead() {
        return JsonWriting::configure;
    }

    @Bean
    RequestRejectedHandler rejectedAsProblem() {
        return (request, response, rejected) -> {
            boolean method = String.valueOf(rejected.getMessage()).contains("HTTP method");
            ProblemWriter.write(
                    request,
                    response,
                    method
                            ? new ProblemException(
                                    ProblemType.METHOD_NOT_ALLOWED,
                                    "this method is not offered anywhere",
                                    List.of(),
                                    Map.of("Allow", "GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS"))
                            : new ProblemException(ProblemType.BAD_REQUEST, ProblemType.BAD_REQUEST.generalDetail()));
        };
    }
}
