# Build: docker build --build-arg REGISTRY=<registry of the .NET images>/ -t curewatch .
ARG REGISTRY

FROM ${REGISTRY}dotnet/sdk:10.0 AS build
WORKDIR /source
COPY . .
RUN dotnet publish src/CureWatch.Service -c Release -o /app

FROM ${REGISTRY}dotnet/aspnet:10.0
WORKDIR /app
COPY --from=build /app .
COPY config /config
RUN mkdir /data && chown "$APP_UID" /data
USER $APP_UID
VOLUME /data

# From outside the container only what listens to the whole network is reached. The service starts only once it is told by which name the board is called
# (CUREWATCH__BOARD__HOSTS__0). The embedded broker listens to the network once it is told who may connect (CUREWATCH__MQTT__USERS__0__USER, __PASSWORD,
# __ROLE=client); with a broker of the shop's own (CUREWATCH__MQTT__EXTERNAL__HOST, and what belongs to it) it does not run.
ENV CUREWATCH__BOARD__LISTEN=all CUREWATCH__DATA__FOLDER=/data
EXPOSE 8080 8443 1883
HEALTHCHECK --interval=1m CMD ["dotnet", "curewatch.dll", "health", "--config", "/config"]
ENTRYPOINT ["dotnet", "curewatch.dll"]
CMD ["run", "--config", "/config"]
